/** A fencer's standings by drill, from the phone's database. */
import type { Standing } from "../rules/chart";
import { thePhone } from "./phone";

export async function standingsOf(fencer: string): Promise<Map<string, Standing>> {
  const rows = await thePhone().db.use((handle) =>
    handle.getAll("standings", IDBKeyRange.bound([fencer, ""], [fencer, "\uffff"])),
  );
  return new Map(rows.map((row) => [row.drill, row]));
}

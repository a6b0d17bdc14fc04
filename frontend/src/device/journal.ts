/**
 * Append-only second copy of unsent events, in a store that fails independently of the database.
 */
import type { Contents, Gist, Line } from "./lines";

export interface Journal {
  /** Acquire the journal and summarise it. */
  open(): Promise<Gist>;
  read(): Promise<Contents>;
  /** Resolves once the lines are on the disk. */
  add(lines: Line[]): Promise<void>;
  /** Truncate to `lines`; only once the server has the rest. */
  reset(lines: Line[]): Promise<void>;
}

export interface Opened {
  journal: Journal;
  gist: Gist;
}

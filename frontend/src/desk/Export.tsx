/** Everything about a fencer, saved as a file. */
import { download } from "../device/download";
import { accessWords } from "../words.access";
import { Outcome, useDoing } from "./ask";
import { saveAs } from "./saveAs";

const said = accessWords.record;

export function Export({ path }: { path: string }) {
  const doing = useDoing();
  const save = () =>
    doing.attempt(async () => {
      const { name, content } = await download(`${path}/export.zip`);
      saveAs(name ?? "fencer.zip", content);
      return said.savedFile;
    });
  return (
    <>
      <p class="soft">{said.saveLead}</p>
      <button type="button" class="plain" data-testid="export" disabled={doing.busy} onClick={save}>
        {doing.busy ? said.saving : said.save}
      </button>
      <Outcome of={doing} named="export" />
    </>
  );
}

/** Download everything about a fencer. */
import { useDoing } from "../app/ask";
import { saveAs } from "../app/saveAs";
import { download } from "../device/download";
import { _ } from "../language/i18n";
import { Outcome } from "../ui/Answer";

export function Export({ path }: { path: string }) {
  const doing = useDoing();
  const save = () =>
    doing.attempt(async () => {
      const { name, content } = await download(`${path}/export.zip`);
      saveAs(name ?? "fencer.zip", content);
      return _("The file is saved. Delete it when you no longer need it.");
    });
  return (
    <>
      <p class="soft">
        {_(
          "A zip with tables and an explanation of every field. Hand it only to the fencer or the guardian.",
        )}
      </p>
      <button type="button" class="plain" data-testid="export" disabled={doing.busy} onClick={save}>
        {doing.busy ? _("Fetching …") : _("Save all of it as a file")}
      </button>
      <Outcome of={doing} named="export" />
    </>
  );
}

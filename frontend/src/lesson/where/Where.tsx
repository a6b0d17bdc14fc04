/** The setting in one line, and the sheet behind it. */
import { useState } from "preact/hooks";
import { _ } from "../../language/i18n";
import { lazy } from "../../ui/lazy";
import { isTold, settingNow } from "./setting";
import { settingWords } from "./words";
import "./where.css";

const WhereSheet = lazy<{ inLesson: boolean; onClose: () => void }>(() =>
  import("./WhereSheet").then((file) => file.WhereSheet),
);

/** @param inLesson whether it is told of the lesson on screen; else of those to come */
export function Where({ inLesson }: { inLesson: boolean }) {
  const [open, setOpen] = useState(false);
  const told = isTold(inLesson) ? settingWords(settingNow(inLesson)) : _("not told yet");
  return (
    <>
      <button type="button" class="plain where" data-testid="where" onClick={() => setOpen(true)}>
        {_("Setting: %(setting)s", { setting: told })}
      </button>
      {open ? <WhereSheet inLesson={inLesson} onClose={() => setOpen(false)} /> : null}
    </>
  );
}

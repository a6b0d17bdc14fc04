/** The scales of one ladder and their grades. */
import { useRef } from "preact/hooks";
import { SCALES } from "../app/vocabulary";
import type { DrillDocument } from "../device/types";
import { _ } from "../language/i18n";
import type { LadderName } from "../rules/chart";
import {
  addGrade,
  addScale,
  dropGrade,
  dropScale,
  moveGrade,
  scalesOf,
  setGrade,
} from "./drillDraft";
import { Fault } from "./Fault";

const LEADS = {
  read: _("Each scale is one side of the cue. Put its grades in order, the plainest first."),
  heat: _("Each scale is one side of the intensity. Put its grades in order, the mildest first."),
};

interface Props {
  family: LadderName;
  doc: DrillDocument;
  /** Allowed names of scales in this family. */
  names: readonly string[];
  errors: Record<string, string[]>;
  onChange: (doc: DrillDocument) => void;
}

export function ScaleEditor({ family, doc, names, errors, onChange }: Props) {
  const scales = scalesOf(doc, family);
  const free = names.filter((name) => !(name in doc.scales));
  const box = useRef<HTMLDivElement>(null);
  const add = (name: string) => {
    if (name === "") return;
    onChange(addScale(doc, family, name));
    setTimeout(() => document.getElementById(`grade-${name}-0`)?.focus());
  };
  return (
    <div class="scales" ref={box} tabIndex={-1}>
      <h3>{_("Scales and their grades")}</h3>
      <p class="soft">{LEADS[family]}</p>
      {scales.map(([name, grades]) => (
        <fieldset key={name} data-testid={`scale-${name}`}>
          <legend>{SCALES[name] ?? name}</legend>
          <Fault errors={errors} at={[`scales.${name}`, `scales.${name}.grades`]} />
          <ol>
            {grades.map((grade, at) => {
              const what = _("%(scale)s, grade %(n)s", { scale: SCALES[name] ?? name, n: at + 1 });
              return (
                <li key={`${name}${at}`} class="grade-row">
                  <input
                    id={`grade-${name}-${at}`}
                    type="text"
                    value={grade}
                    maxLength={80}
                    aria-label={what}
                    data-testid={`grade-${name}-${at}`}
                    onInput={(event) =>
                      onChange(setGrade(doc, name, at, event.currentTarget.value))
                    }
                  />
                  <button
                    type="button"
                    class="quiet"
                    disabled={at === 0}
                    aria-label={_("Earlier: %(what)s", { what })}
                    data-testid={`grade-up-${name}-${at}`}
                    onClick={() => onChange(moveGrade(doc, family, name, at, at - 1))}
                  >
                    ↑
                  </button>
                  <button
                    type="button"
                    class="quiet"
                    aria-label={_("Take out: %(what)s", { what })}
                    data-testid={`grade-drop-${name}-${at}`}
                    onClick={() => {
                      onChange(dropGrade(doc, family, name, at));
                      box.current?.focus();
                    }}
                  >
                    ✕
                  </button>
                </li>
              );
            })}
          </ol>
          <div class="enter">
            <button
              type="button"
              class="quiet"
              aria-label={_("Add a grade: %(scale)s", { scale: SCALES[name] ?? name })}
              data-testid={`grade-add-${name}`}
              onClick={() => {
                onChange(addGrade(doc, name));
                setTimeout(() =>
                  document.getElementById(`grade-${name}-${grades.length}`)?.focus(),
                );
              }}
            >
              {_("Add a grade")}
            </button>
            <button
              type="button"
              class="quiet"
              data-testid={`scale-drop-${name}`}
              onClick={() => {
                onChange(dropScale(doc, family, name));
                box.current?.focus();
              }}
            >
              {_("Take out the scale %(scale)s", { scale: SCALES[name] ?? name })}
            </button>
          </div>
        </fieldset>
      ))}
      {free.length === 0 ? null : (
        <label class="field">
          <span>{_("Add a scale")}</span>
          <select
            value=""
            data-testid={`scale-add-${family}`}
            onChange={(event) => {
              add(event.currentTarget.value);
              event.currentTarget.value = "";
            }}
          >
            <option value="">{_("Choose …")}</option>
            {free.map((name) => (
              <option key={name} value={name}>
                {SCALES[name] ?? name}
              </option>
            ))}
          </select>
        </label>
      )}
    </div>
  );
}

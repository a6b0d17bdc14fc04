/** The scales of one ladder: which, and their grades in order. */
import { useRef } from "preact/hooks";
import type { DrillDocument, LadderName } from "../device/types";
import { words } from "../words";
import { drillWords } from "../words.drills";
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

const said = drillWords.write;

interface Props {
  family: LadderName;
  doc: DrillDocument;
  /** Names a scale of this family may have. */
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
      <h3>{said.scales}</h3>
      <p class="soft">{said.scalesLead[family]}</p>
      {scales.map(([name, grades]) => (
        <fieldset key={name} data-testid={`scale-${name}`}>
          <legend>{words.scales[name] ?? name}</legend>
          <Fault errors={errors} at={[`scales.${name}`, `scales.${name}.grades`]} />
          <ol>
            {grades.map((grade, at) => {
              const what = said.grade(words.scales[name] ?? name, at + 1);
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
                    aria-label={said.earlier(what)}
                    data-testid={`grade-up-${name}-${at}`}
                    onClick={() => onChange(moveGrade(doc, family, name, at, at - 1))}
                  >
                    ↑
                  </button>
                  <button
                    type="button"
                    class="quiet"
                    aria-label={said.drop(what)}
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
              aria-label={said.addGrade(words.scales[name] ?? name)}
              data-testid={`grade-add-${name}`}
              onClick={() => {
                onChange(addGrade(doc, name));
                setTimeout(() =>
                  document.getElementById(`grade-${name}-${grades.length}`)?.focus(),
                );
              }}
            >
              {said.addGradeShort}
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
              {said.dropScale(words.scales[name] ?? name)}
            </button>
          </div>
        </fieldset>
      ))}
      {free.length === 0 ? null : (
        <label class="field">
          <span>{said.addScale}</span>
          <select
            value=""
            data-testid={`scale-add-${family}`}
            onChange={(event) => {
              add(event.currentTarget.value);
              event.currentTarget.value = "";
            }}
          >
            <option value="">{said.pick}</option>
            {free.map((name) => (
              <option key={name} value={name}>
                {words.scales[name] ?? name}
              </option>
            ))}
          </select>
        </label>
      )}
    </div>
  );
}

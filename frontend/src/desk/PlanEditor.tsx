/** Change a lesson's plan for today: put parts earlier or later, take them out, add a drill. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { Fencer } from "../device/types";
import { ADDED, change, isChanged, type Part, partsFor } from "../plans";
import { club, drillOf, tell } from "../state";
import { words } from "../words";
import { eveningWords } from "../words.evenings";
import { planWords } from "../words.plan";
import { PartName } from "./Plan";
import { useDrag } from "./useDrag";

interface Props {
  fencer: Fencer;
  onDone: () => void;
}

export function PlanEditor({ fencer, onDone }: Props) {
  const parts = partsFor(fencer.id);
  const [said, setSaid] = useState("");
  const box = useRef<HTMLFieldSetElement>(null);
  // the button that opened this is gone: the keyboard goes on here
  useEffect(() => box.current?.focus(), []);
  const set = (next: Part[] | null, what: string) => {
    setSaid(what);
    change(fencer.id, next).catch(failed);
  };
  const swap = (at: number, to: number) => {
    const next = [...parts];
    const [part] = next.splice(at, 1);
    if (part === undefined) return;
    next.splice(to, 0, part);
    set(next, planWords.moved(nameOf(part), to + 1));
  };
  const drag = useDrag(swap);
  const drop = (at: number, part: Part) => {
    set(
      parts.filter((_, index) => index !== at),
      planWords.removed(nameOf(part)),
    );
    box.current?.focus();
  };
  const add = (drill: string) => {
    if (drill === "") return;
    const part = { drill, role: ADDED, minutes: null, told: null };
    set([...parts, part], planWords.added(nameOf(part)));
  };
  return (
    <fieldset class="plan-edit" ref={box} tabIndex={-1} data-testid={`edit-${fencer.id}`}>
      <legend class="unseen">{words.plan.changeFor(fencer.nickname)}</legend>
      {parts.length === 0 ? <p class="soft">{planWords.empty}</p> : null}
      <ol class="plan" ref={drag.list}>
        {parts.map((part, at) => (
          <li key={`${at}${part.role}${part.drill}`} data-drop={drag.markOf(at)}>
            <PartName part={part} />
            <div class="moves">
              <span
                class="grip"
                title={eveningWords.drag(nameOf(part))}
                data-testid={`grip-${at}`}
                {...drag.gripOf(at)}
              />
              <button
                type="button"
                class="quiet"
                disabled={at === 0}
                aria-label={planWords.up(nameOf(part))}
                data-testid={`up-${at}`}
                onClick={() => swap(at, at - 1)}
              >
                ↑
              </button>
              <button
                type="button"
                class="quiet"
                disabled={at === parts.length - 1}
                aria-label={planWords.down(nameOf(part))}
                data-testid={`down-${at}`}
                onClick={() => swap(at, at + 1)}
              >
                ↓
              </button>
              <button
                type="button"
                class="quiet"
                aria-label={planWords.remove(nameOf(part))}
                data-testid={`remove-${at}`}
                onClick={() => drop(at, part)}
              >
                ✕
              </button>
            </div>
          </li>
        ))}
      </ol>
      <label class="field">
        <span>{planWords.add}</span>
        <select
          value=""
          data-testid={`add-${fencer.id}`}
          onChange={(event) => {
            add(event.currentTarget.value);
            event.currentTarget.value = "";
          }}
        >
          <option value="">{planWords.pick}</option>
          {(club.value?.drills ?? [])
            .filter((drill) => !drill.archived && drill.weapon.includes(fencer.weapon))
            .map((drill) => (
              <option key={drill.id} value={drill.id}>
                {drill.name}
              </option>
            ))}
        </select>
      </label>
      <div class="enter">
        <button type="button" class="plain" data-testid={`plan-done-${fencer.id}`} onClick={onDone}>
          {planWords.done}
        </button>
        {isChanged(fencer.id) ? (
          <button type="button" class="quiet" onClick={() => set(null, planWords.reset)}>
            {planWords.reset}
          </button>
        ) : null}
      </div>
      <p class="unseen" role="status">
        {said}
      </p>
    </fieldset>
  );
}

const nameOf = (part: Part): string => drillOf(part.drill)?.name ?? part.told?.name ?? "";

function failed(error: unknown): void {
  console.error(error);
  tell(words.storage.broken);
}

/** Edit a lesson's plan for today: reorder, remove or add parts. */
import { useEffect, useRef, useState } from "preact/hooks";
import { ADDED, change, isChanged, type Part, partsFor } from "../app/plans";
import { club, drillOf, tell } from "../app/state";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";
import { PartName } from "./PartName";
import { useDrag } from "./useDrag";

interface Props {
  fencer: Fencer;
  onDone: () => void;
}

export function PlanEditor({ fencer, onDone }: Props) {
  const parts = partsFor(fencer.id);
  const [said, setSaid] = useState("");
  const box = useRef<HTMLFieldSetElement>(null);
  // the button that opened this is gone: move the focus here
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
    set(next, _("%(what)s is now part %(at)s.", { what: nameOf(part), at: to + 1 }));
  };
  const drag = useDrag(swap);
  const drop = (at: number, part: Part) => {
    set(
      parts.filter((_, index) => index !== at),
      _("%(what)s is taken out.", { what: nameOf(part) }),
    );
    box.current?.focus();
  };
  const add = (drill: string) => {
    if (drill === "") return;
    const part = { drill, role: ADDED, minutes: null, told: null };
    set([...parts, part], _("%(what)s is added at the end.", { what: nameOf(part) }));
  };
  return (
    <fieldset class="plan-edit" ref={box} tabIndex={-1} data-testid={`edit-${fencer.id}`}>
      <legend class="unseen">{_("Change the plan for %(name)s", { name: fencer.nickname })}</legend>
      {parts.length === 0 ? (
        <p class="soft">{_("No parts: choose the drill on the strip.")}</p>
      ) : null}
      <ol class="plan" ref={drag.list}>
        {parts.map((part, at) => (
          <li key={`${at}${part.role}${part.drill}`} data-drop={drag.markOf(at)}>
            <PartName part={part} />
            <div class="moves">
              <span
                class="grip"
                title={_("Drag: %(name)s", { name: nameOf(part) })}
                data-testid={`grip-${at}`}
                {...drag.gripOf(at)}
              />
              <button
                type="button"
                class="quiet"
                disabled={at === 0}
                aria-label={_("Earlier: %(what)s", { what: nameOf(part) })}
                data-testid={`up-${at}`}
                onClick={() => swap(at, at - 1)}
              >
                ↑
              </button>
              <button
                type="button"
                class="quiet"
                disabled={at === parts.length - 1}
                aria-label={_("Later: %(what)s", { what: nameOf(part) })}
                data-testid={`down-${at}`}
                onClick={() => swap(at, at + 1)}
              >
                ↓
              </button>
              <button
                type="button"
                class="quiet"
                aria-label={_("Take out: %(what)s", { what: nameOf(part) })}
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
        <span>{_("Add a drill")}</span>
        <select
          value=""
          data-testid={`add-${fencer.id}`}
          onChange={(event) => {
            add(event.currentTarget.value);
            event.currentTarget.value = "";
          }}
        >
          <option value="">{_("Choose …")}</option>
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
          {_("Done")}
        </button>
        {isChanged(fencer.id) ? (
          <button
            type="button"
            class="quiet"
            onClick={() => set(null, _("Back to the suggested plan"))}
          >
            {_("Back to the suggested plan")}
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
  tell(_("This phone's storage does not answer. Close the app and open it again."));
}

/** Set the rung by hand: the coach always wins. */
import { useState } from "preact/hooks";
import { useTyped } from "../app/typed";
import { LADDER_NAMES } from "../app/vocabulary";
import { _ } from "../language/i18n";
import { row, type Shown } from "../lesson/live";
import type { LadderName } from "../rules/chart";
import { LADDERS } from "../rules/suggestion";
import { Sheet } from "../ui/Sheet";

interface Props {
  now: Shown;
  onSet: (place: number, reason: string) => void;
  onClose: () => void;
}

export function RungSheet({ now: { chart, walk }, onSet, onClose }: Props) {
  const here = chart.places[walk.place];
  const [rungs, setRungs] = useState<Record<LadderName, number | null>>({
    read: here?.read ?? null,
    heat: here?.heat ?? null,
  });
  const [{ reason }, type, forget] = useTyped(`rung ${row.value?.id}`, () => ({ reason: "" }));
  const place = chart.places.findIndex((one) => one.read === rungs.read && one.heat === rungs.heat);
  const submit = (event: Event) => {
    event.preventDefault();
    if (place < 0) return;
    forget();
    onSet(place, reason);
  };
  return (
    <Sheet title={_("Set the rung by hand")} onClose={onClose}>
      <form onSubmit={submit}>
        {LADDERS.map((ladder) => (
          <Rungs
            key={ladder}
            title={LADDER_NAMES[ladder]}
            name={ladder}
            labels={chart.ladders[ladder]?.rungs.map((rung) => rung.label) ?? []}
            value={rungs[ladder]}
            onPick={(rung) => setRungs({ ...rungs, [ladder]: rung })}
          />
        ))}
        <label class="field">
          <span>{_("Why (if you like)")}</span>
          <input
            type="text"
            maxLength={200}
            value={reason}
            onInput={(event) => type({ reason: event.currentTarget.value })}
          />
        </label>
        <button type="submit" class="strong" data-testid="rung-save">
          {_("Set this rung")}
        </button>
      </form>
    </Sheet>
  );
}

interface RungsProps {
  title: string;
  name: LadderName;
  labels: string[];
  value: number | null;
  onPick: (rung: number) => void;
}

function Rungs({ title, name, labels, value, onPick }: RungsProps) {
  if (labels.length === 0) return null;
  return (
    <fieldset class="radios">
      <legend>{title}</legend>
      {labels.map((label, rung) => (
        <label key={label}>
          <input type="radio" name={name} checked={rung === value} onChange={() => onPick(rung)} />
          <b>{rung + 1}</b>
          <span>{label}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** Set the rung by hand: the coach always wins. */
import { useState } from "preact/hooks";
import { LADDERS } from "../device/suggestion";
import type { LadderName } from "../device/types";
import { Sheet } from "../Sheet";
import { words } from "../words";
import { sheetWords } from "../words.sheets";
import type { Shown } from "./live";

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
  const [reason, setReason] = useState("");
  const place = chart.places.findIndex((one) => one.read === rungs.read && one.heat === rungs.heat);
  const submit = (event: Event) => {
    event.preventDefault();
    if (place >= 0) onSet(place, reason);
  };
  return (
    <Sheet title={sheetWords.setRung} onClose={onClose}>
      <form onSubmit={submit}>
        {LADDERS.map((ladder) => (
          <Rungs
            key={ladder}
            title={words.strip[ladder]}
            name={ladder}
            labels={chart.ladders[ladder]?.rungs.map((rung) => rung.label) ?? []}
            value={rungs[ladder]}
            onPick={(rung) => setRungs({ ...rungs, [ladder]: rung })}
          />
        ))}
        <label class="field">
          <span>{sheetWords.reason}</span>
          <input
            type="text"
            maxLength={200}
            value={reason}
            onInput={(event) => setReason(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="strong" data-testid="rung-save">
          {sheetWords.setHere}
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

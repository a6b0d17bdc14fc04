/** Find a fencer and add a lesson after the last, in one tap. */
import { useState } from "preact/hooks";
import type { Fencer } from "../device/types";
import { words } from "../words";
import { eveningWords as said } from "../words.evenings";
import { FindFencer } from "./FindFencer";
import { search } from "./roster";

interface Props {
  fencers: readonly Fencer[];
  /** When those have a lesson who have one. */
  booked: ReadonlyMap<string, string>;
  /** When the next lesson starts; null after midnight. */
  next: string | null;
  onAdd: (fencer: string) => void;
}

export function EveningAdd({ fencers, booked, next, onAdd }: Props) {
  const [sought, setSought] = useState("");
  const shown = search(fencers, sought);
  const addFirst = (event: SubmitEvent) => {
    event.preventDefault();
    const first = shown.find((one) => !booked.has(one.id));
    if (sought.trim() === "" || first === undefined) return;
    setSought("");
    onAdd(first.id);
  };
  return (
    <section>
      <h2>{said.add}</h2>
      {fencers.length === 0 ? (
        <p class="lead">
          <a href="/fencers">{said.nobodyYet}</a>
        </p>
      ) : (
        <form onSubmit={addFirst}>
          <FindFencer
            sought={sought}
            found={shown.length}
            onSeek={setSought}
            data-testid="evening-find"
          />
        </form>
      )}
      <ul class="choices adds">
        {shown.map((fencer) => (
          <li key={fencer.id}>
            <Add
              fencer={fencer}
              at={booked.get(fencer.id)}
              next={next}
              onAdd={() => onAdd(fencer.id)}
            />
          </li>
        ))}
      </ul>
    </section>
  );
}

interface AddProps {
  fencer: Fencer;
  at: string | undefined;
  next: string | null;
  onAdd: () => void;
}

/** Whoever is added stays in place with the time: a second tap by mistake adds nobody else. */
const Add = ({ fencer, at, next, onAdd }: AddProps) => (
  <button
    type="button"
    aria-disabled={at !== undefined}
    data-testid={`add-${fencer.id}`}
    onClick={at === undefined ? onAdd : undefined}
  >
    <span>
      {fencer.nickname} <small>{words.weapons[fencer.weapon]}</small>{" "}
      <span class="unseen">{at === undefined ? said.addAt(next ?? "") : said.bookedAt(at)}</span>
    </span>
    <span aria-hidden="true">{at ?? "+"}</span>
  </button>
);

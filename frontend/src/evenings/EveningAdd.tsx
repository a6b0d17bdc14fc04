/** Find a fencer and append a lesson with one tap. */
import { useState } from "preact/hooks";
import { search } from "../app/roster";
import { WEAPONS } from "../app/vocabulary";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";
import { FindFencer } from "../ui/FindFencer";

interface Props {
  fencers: readonly Fencer[];
  /** Times of lessons already booked, by fencer. */
  booked: ReadonlyMap<string, string>;
  /** Start of the next lesson; null past midnight. */
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
      <h2>{_("Add a fencer")}</h2>
      {fencers.length === 0 ? (
        <p class="lead">
          <a href="/fencers">{_("No fencers yet. Add them under Fencers first.")}</a>
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

/** Added fencers stay in place, so that a double tap adds nobody else. */
const Add = ({ fencer, at, next, onAdd }: AddProps) => (
  <button
    type="button"
    aria-disabled={at !== undefined}
    data-testid={`add-${fencer.id}`}
    onClick={at === undefined ? onAdd : undefined}
  >
    <span>
      {fencer.nickname} <small>{WEAPONS[fencer.weapon]}</small>{" "}
      <span class="unseen">
        {at === undefined ? _("add at %(at)s", { at: next ?? "" }) : _("planned at %(at)s", { at })}
      </span>
    </span>
    <span aria-hidden="true">{at ?? "+"}</span>
  </button>
);

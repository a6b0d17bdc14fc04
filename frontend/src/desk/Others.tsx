/** Everyone else, below this evening's lessons: start with any fencer. */
import { useState } from "preact/hooks";
import { club } from "../state";
import { words } from "../words";
import { eveningWords } from "../words.evenings";
import { search } from "./roster";
import { Enter } from "./Today";

export function Others({ booked }: { booked: Set<string> }) {
  const [sought, setSought] = useState("");
  const here = (club.value?.fencers ?? []).filter((fencer) => !fencer.archived);
  const shown =
    sought.trim() === "" ? here.filter(({ id }) => !booked.has(id)) : search(here, sought);
  return (
    <section>
      <h2>{words.today.others}</h2>
      <label class="field">
        <span class="unseen">{eveningWords.find}</span>
        <input
          type="search"
          placeholder={eveningWords.find}
          value={sought}
          data-testid="find-fencer"
          onInput={(event) => setSought(event.currentTarget.value)}
        />
      </label>
      {shown.length === 0 && sought.trim() !== "" ? (
        <p class="soft">{eveningWords.nobody}</p>
      ) : null}
      <ul class="rows">
        {shown.map((fencer) => (
          <li key={fencer.id} data-testid={`fencer-${fencer.id}`}>
            <span>
              {fencer.nickname} <small>{words.weapons[fencer.weapon]}</small>
            </span>
            <Enter fencer={fencer} part={null} />
          </li>
        ))}
      </ul>
    </section>
  );
}

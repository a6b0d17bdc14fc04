/** Everyone else, below this evening's lessons: start with any fencer. */
import { useState } from "preact/hooks";
import { club } from "../state";
import { words } from "../words";
import { FindFencer } from "./FindFencer";
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
      <FindFencer
        sought={sought}
        found={shown.length}
        onSeek={setSought}
        data-testid="find-fencer"
      />
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

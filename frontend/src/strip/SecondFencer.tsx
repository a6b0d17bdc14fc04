/** Chooses the fencer who is in turn with the one on the strip. */
import { useState } from "preact/hooks";
import { partsFor } from "../app/plans";
import { search } from "../app/roster";
import { go } from "../app/router";
import { club, presentFencers } from "../app/state";
import { WEAPONS } from "../app/vocabulary";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";
import { openHere } from "../lesson/live";
import { openLesson } from "../lesson/open";
import { FindFencer } from "../ui/FindFencer";
import { Sheet } from "../ui/Sheet";
import { fail } from "./respond";

export function SecondFencer({ onClose }: { onClose: () => void }) {
  const [sought, setSought] = useState("");
  const here = openHere();
  const free = presentFencers.value.filter(({ id }) => !here.some((row) => row.fencer === id));
  const today = new Set(club.value?.today.map((one) => one.fencer));
  const found = sought.trim() === "" ? bookedFirst(free, today) : search(free, sought);
  const begin = (fencer: string) =>
    openLesson(
      fencer,
      partsFor(fencer)[0] ?? null,
      openHere().map((row) => row.id),
    ).then((lesson) => {
      onClose();
      go(`/strip/${lesson}`);
    }, fail);
  return (
    <Sheet title={_("Who takes turns?")} onClose={onClose}>
      <FindFencer
        sought={sought}
        found={found.length}
        onSeek={setSought}
        data-testid="find-second"
      />
      <ul class="choices">
        {found.map((fencer) => (
          <li key={fencer.id}>
            <button
              type="button"
              data-testid={`second-${fencer.id}`}
              onClick={() => begin(fencer.id)}
            >
              <span>
                {fencer.nickname}
                <small>{WEAPONS[fencer.weapon]}</small>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

const bookedFirst = (fencers: Fencer[], today: ReadonlySet<string>): Fencer[] => [
  ...fencers.filter(({ id }) => today.has(id)),
  ...fencers.filter(({ id }) => !today.has(id)),
];

/** Start a lesson with any other fencer. */
import { useState } from "preact/hooks";
import { search } from "../app/roster";
import { presentFencers } from "../app/state";
import { Enter } from "../choose/Enter";
import { _ } from "../language/i18n";
import { FencerRows, FindFencer } from "../ui/FindFencer";

export function Others({ booked }: { booked: Set<string> }) {
  const [sought, setSought] = useState("");
  const here = presentFencers.value;
  const shown =
    sought.trim() === "" ? here.filter(({ id }) => !booked.has(id)) : search(here, sought);
  return (
    <section>
      <h2>{_("Start with any fencer")}</h2>
      <FindFencer
        sought={sought}
        found={shown.length}
        onSeek={setSought}
        data-testid="find-fencer"
      />
      <FencerRows of={shown}>{(fencer) => <Enter fencer={fencer} part={null} />}</FencerRows>
    </section>
  );
}

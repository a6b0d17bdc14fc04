/** Invite company: a second fencer in turn, or a second person who marks along. */
import { useEffect, useState } from "preact/hooks";
import { reloadLessons, thePhone } from "../app/phone";
import { _ } from "../language/i18n";
import { serialiseAddress } from "../lesson/address";
import { cueNumber } from "../lesson/cueNumber";
import { live } from "../lesson/live";
import { tellUnmarked } from "../lesson/unmarked";
import { Sheet } from "../ui/Sheet";
import { Scan } from "../ui/scan/Scan";
import { SecondFencer } from "./SecondFencer";
import "./company.css";

export function Company() {
  const [showing, setShowing] = useState(false);
  const [choosing, setChoosing] = useState(false);
  return (
    <>
      <button
        type="button"
        class="plain"
        data-testid="second-fencer"
        onClick={() => setChoosing(true)}
      >
        {_("A second fencer in turn")}
      </button>
      {choosing ? <SecondFencer onClose={() => setChoosing(false)} /> : null}
      <button
        type="button"
        class="plain"
        data-testid="let-watch"
        onClick={() => {
          setShowing(true);
        }}
      >
        {_("Let someone watch and mark along")}
      </button>
      {showing ? <Picture onClose={() => setShowing(false)} /> : null}
    </>
  );
}

/** QR code of the lesson's address, for the second phone's camera. */
function Picture({ onClose }: { onClose: () => void }) {
  useEffect(() => {
    watched().catch(tellUnmarked);
  }, []);
  const row = live.value?.row;
  if (row === undefined) return null;
  const { id: lesson, fencer, coach, day, drill } = row;
  const shown = { lesson, fencer, coach, day, drill, number: cueNumber() };
  const address = `${location.origin}/watch/${serialiseAddress(shown)}`;
  return (
    <Sheet title={_("Let someone watch and mark along")} onClose={onClose}>
      <p>{_("Point the second phone's camera here. It works without a network.")}</p>
      <Scan address={address} label={_("The lesson's address as a picture")} />
      <p>
        {_("The number of the cue stands on your screen from now on: call it out now and then.")}
      </p>
    </Sheet>
  );
}

/** Mark the lesson as watched: the strip shows cue numbers from now on. */
async function watched(): Promise<void> {
  const now = live.value;
  if (now === null || now.row.watched) return;
  live.value = { ...now, row: { ...now.row, watched: true } };
  await thePhone().db.use((handle) => handle.put("lessons", { ...now.row, watched: true }));
  await reloadLessons();
}

/** Company in the lesson: a second fencer in turn, a second person who marks along. */
import { useEffect, useState } from "preact/hooks";
import { encode } from "uqr";
import { reloadLessons, thePhone } from "../phone";
import { Sheet } from "../Sheet";
import { tell } from "../state";
import { words } from "../words";
import { said } from "../words.observer";
import { packed } from "./address";
import { numberNow } from "./InTurn";
import { live } from "./live";
import "../style/beside.css";

export function Company({ onClose }: { onClose: () => void }) {
  const [showing, setShowing] = useState(false);
  return (
    <>
      <a class="plain" href="/" data-testid="second-fencer" onClick={onClose}>
        {said.turn.with}
      </a>
      <button
        type="button"
        class="plain"
        data-testid="let-watch"
        onClick={() => {
          setShowing(true);
        }}
      >
        {said.watch.let}
      </button>
      {showing ? <Picture onClose={() => setShowing(false)} /> : null}
    </>
  );
}

/** The lesson's address, for the camera of the second phone; from now on the strip shows numbers. */
function Picture({ onClose }: { onClose: () => void }) {
  useEffect(() => {
    watched().catch((error: unknown) => {
      console.error(error);
      tell(words.strip.unmarked);
    });
  }, []);
  const row = live.value?.row;
  if (row === undefined) return null;
  const { id: lesson, fencer, coach, day, drill } = row;
  const shown = { lesson, fencer, coach, day, drill, number: numberNow() };
  const address = `${location.origin}/watch/${packed(shown)}`;
  const { data, size } = encode(address, { border: 4, ecc: "M" });
  const d = data.flatMap((line, y) => line.flatMap((on, x) => (on ? [`M${x} ${y}h1v1h-1z`] : [])));
  return (
    <Sheet title={said.watch.let} onClose={onClose}>
      <p>{said.watch.scan}</p>
      <svg
        class="picture"
        viewBox={`0 0 ${size} ${size}`}
        role="img"
        aria-label={said.watch.qr}
        shape-rendering="crispEdges"
        data-testid="picture"
        data-address={address}
      >
        <rect width={size} height={size} fill="#fff" />
        <path d={d.join("")} fill="#000" />
      </svg>
      <p>{said.watch.scanThen}</p>
    </Sheet>
  );
}

/** The strip shows the cue's number from now on. */
async function watched(): Promise<void> {
  const now = live.value;
  if (now === null || now.row.watched) return;
  live.value = { ...now, row: { ...now.row, watched: true } };
  await thePhone().db.use((handle) => handle.put("lessons", { ...now.row, watched: true }));
  await reloadLessons();
}

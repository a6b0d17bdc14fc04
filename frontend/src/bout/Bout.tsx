/** The bout sheet: whoever watches taps what an action met and came to. */
import { useEffect, useState } from "preact/hooks";
import { search } from "../app/roster";
import { go } from "../app/router";
import { standingsOf } from "../app/standings";
import { club, fencerOf, presentFencers } from "../app/state";
import type { Drill } from "../device/types";
import { _ } from "../language/i18n";
import { tellUnmarked } from "../lesson/unmarked";
import { FencerRows, FindFencer } from "../ui/FindFencer";
import { PageHead } from "../ui/SyncPill";
import { begin, change, counted, type Draft, draft, openDraft } from "./draft";
import { KeptBouts } from "./KeptBouts";
import { Taps } from "./Taps";
import "./bout.css";

export function Bout({ id }: { id: string }) {
  const [ready, setReady] = useState(false);
  useEffect(() => {
    openDraft().then(() => setReady(true), tellUnmarked);
  }, []);
  const now = draft.value;
  // a bout with taps in it is not left for another fencer's by a link
  useEffect(() => {
    if (ready && now !== null && now.taps.length > 0 && id !== now.fencer) {
      go(`/bout/${now.fencer}`, true);
    }
  }, [ready, now === null, id]);
  if (!ready) return <p class="page">{_("Opening…")}</p>;
  return (
    <main class="page bout" data-testid="bout">
      <PageHead title={_("Bout sheet")} />
      {fencerOf(id) === undefined ? <WhoFences /> : <Watching key={id} fencer={id} />}
    </main>
  );
}

function WhoFences() {
  const [sought, setSought] = useState("");
  const shown = search(presentFencers.value, sought);
  return (
    <>
      <p>{_("Whose bout do you watch?")}</p>
      <FindFencer
        sought={sought}
        found={shown.length}
        onSeek={setSought}
        data-testid="find-fencer"
      />
      <FencerRows of={shown}>
        {({ id, nickname }) => (
          <a
            class="plain"
            href={`/bout/${id}`}
            aria-label={_("Watch a bout of %(name)s", { name: nickname })}
            data-testid={`bout-of-${id}`}
          >
            {_("Watch")}
          </a>
        )}
      </FencerRows>
    </>
  );
}

function Watching({ fencer }: { fencer: string }) {
  const drills = useDrills(fencer);
  const now = draft.value;
  const first = drills?.[0]?.id;
  useEffect(() => {
    if (first === undefined || now?.fencer === fencer) return;
    begin(fencer, first).catch(tellUnmarked);
  }, [first, fencer, now?.fencer]);
  const name = fencerOf(fencer)?.nickname ?? "";
  if (drills?.length === 0) {
    return <p>{_("No drill suits this fencer's weapon yet: add one under Drills first.")}</p>;
  }
  if (drills === null || now === null || now.fencer !== fencer) return <p>{_("Opening…")}</p>;
  return (
    <>
      <p class="lead">
        {now.of === null
          ? _("%(name)s: tap each time it happens in this bout.", { name })
          : _("%(name)s: correcting a bout that was kept.", { name })}
      </p>
      <label class="field">
        <span>{_("Watched for")}</span>
        <select
          value={now.drill}
          data-testid="bout-drill"
          onChange={(event) => {
            const drill = event.currentTarget.value;
            change(() => ({ drill })).catch(tellUnmarked);
          }}
        >
          {drills.map((drill) => (
            <option key={drill.id} value={drill.id}>
              {drill.name}
            </option>
          ))}
        </select>
      </label>
      <Taps now={now} counts={counted(now)} />
      <KeptBouts again={keptMark(now)} />
      <p>
        <a class="quiet" href="/bout">
          {_("Another fencer's bout")}
        </a>
      </p>
    </>
  );
}

/** Changes when a bout was kept or taken up. */
const keptMark = ({ of, taps, n }: Draft): string => `${of} ${taps.length === 0 ? n : "taps"}`;

/** The drills of the fencer's weapon, those worked first. */
function useDrills(fencer: string): Drill[] | null {
  const [worked, setWorked] = useState<Set<string> | null>(null);
  useEffect(() => {
    standingsOf(fencer).then((found) => setWorked(new Set(found.keys())), console.warn);
  }, [fencer]);
  const weapon = fencerOf(fencer)?.weapon ?? "";
  if (worked === null) return null;
  const fit = (club.value?.drills ?? []).filter(
    (drill) => !drill.archived && drill.weapon.includes(weapon),
  );
  return fit.sort((a, b) => Number(worked.has(b.id)) - Number(worked.has(a.id)));
}

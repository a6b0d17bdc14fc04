/** The next cue in large words where the app proposes it, and the wait before it. */
import { words } from "../words";
import { giving, proposal } from "./giving";
import { type Ring, ring, turn } from "./wait";

export function startWait(): void {
  const wait = proposal.value?.wait ?? null;
  if (wait !== null) turn(wait);
}

/** What is to be given, in a word or two; empty where the drill has one kind of cue. */
export function nextWords(): string {
  if (proposal.value?.given == null) return "";
  const { given, loud } = giving.value;
  return words.strip.next(given, loud);
}

export function NextCue() {
  if (proposal.value?.wait == null) return null;
  const now = ring.value;
  const said = nextWords();
  const hint = words.strip.ring[now.is];
  const own = said !== "" && !isAsProposed();
  return (
    <button type="button" class="next" data-testid="wait" data-ring={now.is} onClick={startWait}>
      <RingShape ring={now} />
      {said === "" ? null : (
        <b data-testid="proposal">
          {said}
          {own ? <small>{words.strip.ownChoice}</small> : null}
        </b>
      )}
      <span class="hint">{hint}</span>
    </button>
  );
}

const isAsProposed = (): boolean =>
  proposal.value?.given === giving.value.given && proposal.value.loud === giving.value.loud;

const RingShape = ({ ring: now }: { ring: Ring }) => (
  <svg class="ring" viewBox="0 0 40 40" aria-hidden="true" focusable="false">
    <circle class="ring-back" cx="20" cy="20" r="16" />
    {now.is === "running" ? (
      <circle
        class="ring-run"
        cx="20"
        cy="20"
        r="16"
        pathLength={1}
        style={{ animationDuration: `${now.wait}s` }}
      />
    ) : null}
    {now.is === "due" ? <circle class="ring-due" cx="20" cy="20" r="9" /> : null}
    {now.is === "idle" ? <path class="ring-go" d="M16 12 L28 20 L16 28 Z" /> : null}
  </svg>
);

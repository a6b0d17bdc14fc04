/** The wait before a cue, and the cue to give in words. */
import { _ } from "../language/i18n";
import { giving, proposal } from "../lesson/giving";
import { type Ring, ring, toggleWait } from "../lesson/wait";
import { cueName } from "../ui/marks";

const HINTS = { idle: _("Wait"), running: _("Wait …"), due: _("Now") };

export function startWait(): void {
  const wait = proposal.value?.wait ?? null;
  if (wait !== null) toggleWait(wait);
}

/** The next cue in words; empty if the drill has only one kind. */
export function nextWords(): string {
  if (proposal.value?.given == null) return "";
  const { given, loud } = giving.value;
  return cueName(given, loud);
}

export function Wait() {
  if (proposal.value?.wait == null) return null;
  const now = ring.value;
  return (
    <button
      type="button"
      class="act wait"
      data-testid="wait"
      data-ring={now.is}
      onClick={startWait}
    >
      <RingShape ring={now} />
      <span>{HINTS[now.is]}</span>
    </button>
  );
}

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

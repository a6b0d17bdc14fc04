/** Enter marks after a set: tapped in a row, edited, recorded together. */
import { useState } from "preact/hooks";
import { _, ngettext } from "../language/i18n";
import { countName, countWords } from "../lesson/counts";
import type { Shown } from "../lesson/live";
import { Pad } from "../lesson/Pad";
import {
  type Entry,
  entriesOf,
  hold,
  keepSet,
  MOST,
  openDraft,
  preview,
  type SetDraft,
  USUAL,
} from "../lesson/set";
import type { Given, Mark } from "../rules/chart";
import type { Gave } from "../rules/order";
import { cueName, GIVEN_NAMES, loudnessName, MARK_NAMES, TENSE_NAME } from "../ui/marks";
import { MarkShape, MoveShape } from "../ui/Shapes";
import { Sheet } from "../ui/Sheet";
import { moveWords } from "./Cue";
import "./set.css";

interface Props {
  now: Shown;
  onClose: () => void;
  onKept: () => void;
  onFail: (error: unknown) => void;
}

/** Where the next mark goes: replacing one or before one; null appends. */
type Aim = { at: number; how: "change" | "before" } | null;

export function SetSheet({ now, onClose, onKept, onFail }: Props) {
  const { chart } = now;
  const [draft, setDraft] = useState(() => openDraft(now));
  const [aim, setAim] = useState<Aim>(null);
  const [stopped, setStopped] = useState(0);
  const [keeping, setKeeping] = useState(false);
  const entries = entriesOf(chart, draft);
  const mixed = Object.keys(chart.meaning).length > 1;
  const rows = mixed ? Math.max(entries.length, USUAL) : entries.length;
  const renew = (next: SetDraft, to: Aim = null) => {
    hold(next);
    setDraft(next);
    setAim(to);
  };
  const judge = (mark: Mark, tense: boolean) => {
    const at = aim?.at ?? draft.marks.length;
    const over = aim?.how === "change" ? 1 : 0;
    if (draft.marks.length - over >= MOST) return;
    renew({ ...draft, marks: draft.marks.toSpliced(at, over, { mark, tense }) });
  };
  const regive = (at: number, cue: Gave) =>
    renew({ ...draft, gave: draft.gave.with(at, cue) }, aim);
  const keep = (count: number) => {
    setKeeping(true);
    keepSet(chart, draft, count).then(onKept, (error: unknown) => {
      setKeeping(false);
      const left = openDraft(now);
      setStopped(draft.marks.length - left.marks.length);
      setDraft(left);
      onFail(error);
    });
  };
  return (
    <Sheet title={_("Marks after a set")} onClose={onClose}>
      {draft.marks.length > 0 ? null : (
        <p>
          {_(
            "Give the set first, then tap one mark for each action, in order. Nothing is kept yet.",
          )}
        </p>
      )}
      {mixed ? <p class="soft">{_("Give them in this order:")}</p> : null}
      <ol class="set" data-testid="set">
        {draft.gave.slice(0, rows).map((cue, at) => (
          <Row
            // rows are identified by position
            key={`row${at + 1}`}
            n={at + 1}
            entry={entries[at] ?? null}
            cue={entries[at] ?? cue}
            mixed={mixed}
            open={aim?.at === at}
            onOpen={() => setAim(aim?.at === at ? null : { at, how: "change" })}
            onBefore={() => setAim({ at, how: "before" })}
            onRemove={() => renew({ ...draft, marks: draft.marks.toSpliced(at, 1) })}
            onGave={(change) => regive(at, { given: cue.given, loud: cue.loud, ...change })}
          />
        ))}
      </ol>
      {stopped > 0 ? (
        <p class="trouble">
          {ngettext(
            "%(n)s mark is kept. The rest could not be written down: they are still here, try again.",
            "%(n)s marks are kept. The rest could not be written down: they are still here, try again.",
            stopped,
          )}
        </p>
      ) : null}
      <div class="set-pad">
        {entries.length > 0 ? (
          <Outcome now={now} entries={entries} onKeep={keep} keeping={keeping} />
        ) : null}
        <p role="status" data-testid="set-next">
          {aim !== null
            ? aim.how === "change"
              ? _("Tap the mark that takes the place of action %(n)s.", { n: aim.at + 1 })
              : _("Tap the mark that comes before action %(n)s.", { n: aim.at + 1 })
            : draft.marks.length < MOST
              ? _("Tap the mark for action %(n)s.", { n: draft.marks.length + 1 })
              : _("That is the longest set: keep it, or change it.")}
        </p>
        <Pad chart={chart} onMark={judge} />
      </div>
    </Sheet>
  );
}

interface OutcomeProps {
  now: Shown;
  entries: Entry[];
  onKeep: (count: number) => void;
  keeping: boolean;
}

/** Preview of the marks, and the buttons that record them. */
function Outcome({ now, entries, onKeep, keeping }: OutcomeProps) {
  const { moves, counts } = preview(now, entries);
  const last = moves.at(-1);
  const far = counts
    .map(({ of, have, need }) => `${countWords(have, need)} ${countName(of)}`.trim())
    .join(", ");
  const beyond = entries.length - (moves[0]?.at ?? entries.length);
  return (
    <section
      class="set-preview"
      data-testid="set-preview"
      aria-label={_("What these marks would do")}
    >
      {moves.map(({ at, move }) => (
        <p key={at} class="set-move">
          <MoveShape move={move} />
          <span>{_("Action %(n)s: %(move)s", { n: at, move: moveWords(now.chart, move) })}</span>
        </p>
      ))}
      <p>
        {last === undefined
          ? _("No move yet: %(counts)s.", { counts: far })
          : _("After the set: %(counts)s.", { counts: far })}
      </p>
      {beyond > 0 ? (
        <p class="soft">
          {ngettext(
            "The last one was given before that move. It is recorded at the rung you gave, but it counts towards what comes after the move.",
            "The last %(n)s were given before that move. They are recorded at the rung you gave, but they count towards what comes after the move.",
            beyond,
          )}
        </p>
      ) : null}
      <button
        type="button"
        class="strong"
        data-testid="set-keep"
        disabled={keeping}
        onClick={() => onKeep(entries.length)}
      >
        {ngettext("Keep %(n)s mark", "Keep %(n)s marks", entries.length)}
      </button>
      {beyond > 0 ? (
        <button
          type="button"
          class="plain"
          data-testid="set-keep-first"
          disabled={keeping}
          onClick={() => onKeep(entries.length - beyond)}
        >
          {ngettext("Keep the first only", "Keep the first %(n)s only", entries.length - beyond)}
        </button>
      ) : null}
    </section>
  );
}

interface RowProps {
  n: number;
  entry: Entry | null;
  cue: Gave;
  mixed: boolean;
  open: boolean;
  onOpen: () => void;
  onBefore: () => void;
  onRemove: () => void;
  onGave: (change: Partial<Gave>) => void;
}

function Row({ n, entry, cue, mixed, open, onOpen, onBefore, onRemove, onGave }: RowProps) {
  const given = cueName(cue.given, cue.loud);
  const other: Given = cue.given === "attack" ? "decoy" : "attack";
  const { loud } = cue;
  const marked = entry === null ? null : entry.tense ? TENSE_NAME : MARK_NAMES[entry.mark];
  return (
    <li data-testid={`set-${n}`} data-mark-was={entry?.mark}>
      <button
        type="button"
        class="set-row"
        aria-expanded={open}
        disabled={entry === null}
        onClick={onOpen}
      >
        <b>{n}</b>
        <span class="chip" data-mark={entry?.mark}>
          {entry === null ? null : <MarkShape mark={entry.mark} />}
        </span>
        <span class="said">
          {marked ?? "–"}
          {mixed ? <small>{given}</small> : null}
        </span>
      </button>
      {open ? (
        <div class="segments">
          {mixed ? (
            <button type="button" data-testid="set-other" onClick={() => onGave({ given: other })}>
              {_("It was: %(to)s", { to: GIVEN_NAMES[other] })}
            </button>
          ) : null}
          {loud === null ? null : (
            <button
              type="button"
              data-testid="set-loudness"
              onClick={() => onGave({ loud: !loud })}
            >
              {_("It was: %(to)s", { to: loudnessName(!loud) })}
            </button>
          )}
          <button type="button" data-testid="set-before" onClick={onBefore}>
            {_("Put one before")}
          </button>
          <button type="button" data-testid="set-remove" onClick={onRemove}>
            {_("Take out")}
          </button>
        </div>
      ) : null}
    </li>
  );
}

/** Marks after a set: tapped in a row, changed where needed, kept together. */
import { useState } from "preact/hooks";
import type { Given, Mark } from "../device/types";
import { Sheet } from "../Sheet";
import { words } from "../words";
import { inputs } from "../words.inputs";
import { moveWords } from "./Cue";
import type { Shown } from "./live";
import { Pad } from "./Pad";
import { MarkShape, MoveShape } from "./Shapes";
import {
  type Draft,
  type Entry,
  entriesOf,
  type Gave,
  hold,
  keepSet,
  MOST,
  openDraft,
  preview,
  USUAL,
} from "./set";

const texts = inputs.set;

interface Props {
  now: Shown;
  onClose: () => void;
  onKept: () => void;
  onFail: (error: unknown) => void;
}

/** Where the next mark goes: in place of one, or before one; null for the end of the row. */
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
  const renew = (next: Draft, to: Aim = null) => {
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
    <Sheet title={texts.title} onClose={onClose}>
      <p>{texts.lead}</p>
      {mixed ? <p class="soft">{texts.order}</p> : null}
      <ol class="set" data-testid="set">
        {draft.gave.slice(0, rows).map((cue, at) => (
          <Row
            // a row is its number
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
      {stopped > 0 ? <p class="trouble">{texts.stopped(stopped)}</p> : null}
      <div class="set-pad">
        {entries.length > 0 ? (
          <Outcome now={now} entries={entries} onKeep={keep} keeping={keeping} />
        ) : null}
        <p role="status" data-testid="set-next">
          {aim !== null
            ? texts[aim.how](aim.at + 1)
            : draft.marks.length < MOST
              ? texts.next(draft.marks.length + 1)
              : texts.full}
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

/** What the marks would do, and the buttons that keep them. */
function Outcome({ now, entries, onKeep, keeping }: OutcomeProps) {
  const { moves, counts } = preview(now, entries);
  const last = moves.at(-1);
  const far = counts
    .map(({ of, have, need }) =>
      `${words.strip.progress(have, need)} ${words.strip.progressName[of] ?? of}`.trim(),
    )
    .join(", ");
  const beyond = entries.length - (moves[0]?.at ?? entries.length);
  return (
    <section class="set-preview" data-testid="set-preview" aria-label={texts.preview}>
      {moves.map(({ at, move }) => (
        <p key={at} class="set-move">
          <MoveShape move={move} />
          <span>{texts.moves(at, moveWords(now.chart, move))}</span>
        </p>
      ))}
      <p>{last === undefined ? texts.stays(far) : texts.ends(far)}</p>
      {beyond > 0 ? <p class="soft">{texts.beyond(beyond)}</p> : null}
      <button
        type="button"
        class="strong"
        data-testid="set-keep"
        disabled={keeping}
        onClick={() => onKeep(entries.length)}
      >
        {texts.keep(entries.length)}
      </button>
      {beyond > 0 ? (
        <button
          type="button"
          class="plain"
          data-testid="set-keep-first"
          disabled={keeping}
          onClick={() => onKeep(entries.length - beyond)}
        >
          {texts.keepFirst(entries.length - beyond)}
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
  const given = words.strip.next(cue.given, cue.loud);
  const other: Given = cue.given === "attack" ? "decoy" : "attack";
  const { loud } = cue;
  const marked = entry === null ? null : entry.tense ? words.tense : words.marks[entry.mark];
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
              {texts.flip(words.given[other])}
            </button>
          ) : null}
          {loud === null ? null : (
            <button
              type="button"
              data-testid="set-loudness"
              onClick={() => onGave({ loud: !loud })}
            >
              {texts.flip(words.loudness(!loud))}
            </button>
          )}
          <button type="button" data-testid="set-before" onClick={onBefore}>
            {texts.insert}
          </button>
          <button type="button" data-testid="set-remove" onClick={onRemove}>
            {texts.remove}
          </button>
        </div>
      ) : null}
    </li>
  );
}

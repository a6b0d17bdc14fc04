/** What was changed in a fencer's fields, by whom, and what stood there before. */
import { useState } from "preact/hooks";
import type { Fencer } from "../device/types";
import { sync } from "../state";
import { useReply } from "../useReply";
import { words } from "../words";
import { peopleWords } from "../words.people";
import { dayWords, Freshness } from "./Exact";

const { history: said, form } = peopleWords;

interface Change {
  field: string;
  old: unknown;
  new: unknown;
  name: string | null;
  at: string;
}

const FIELDS: Record<string, string> = {
  nickname: form.nickname,
  born: form.born,
  weapon: form.weapon,
  hand: form.hand,
  joined: form.joined,
  consent: form.consent,
  note: form.note,
  archived: said.archived,
};

export function History({ fencer }: { fencer: Fencer }) {
  const [open, setOpen] = useState(false);
  return (
    <details
      class="marks-show"
      data-testid="history"
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>{said.title}</summary>
      {open ? <Changes id={fencer.id} /> : null}
    </details>
  );
}

function Changes({ id }: { id: string }) {
  const path = `/api/fencers/${encodeURIComponent(id)}/changes`;
  const reply = useReply<{ changes: Change[] }>(`changes:${id}`, path, id, sync.value.answered);
  return (
    <>
      <Freshness reply={reply} />
      {reply.is === "none" ? <p class="soft">{said.away}</p> : null}
      {reply.data?.changes.length === 0 ? <p class="soft">{said.none}</p> : null}
      <ul class="rows lined">
        {reply.data?.changes.map((change) => (
          <li key={`${change.at}${change.field}`}>
            <span>
              {said.from(
                FIELDS[change.field] ?? change.field,
                shown(change.old),
                shown(change.new),
              )}
              <small>{said.by(dayWords(change.at), change.name ?? said.someone)}</small>
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}

function shown(value: unknown): string {
  if (value === null || value === "") return said.empty;
  if (typeof value === "boolean") return value ? said.yes : said.no;
  const text = String(value);
  if (/^\d{4}-\d\d-\d\d$/.test(text)) return dayWords(text);
  return words.weapons[text] ?? (form.hands as Record<string, string>)[text] ?? text;
}

/** Change history of a fencer's fields. */
import { useState } from "preact/hooks";
import { sync } from "../app/state";
import { useReply } from "../app/useReply";
import { WEAPONS } from "../app/vocabulary";
import type { Replies } from "../device/api-types";
import type { Fencer } from "../device/types";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { Freshness } from "../ui/Freshness";
import { HANDS } from "./personForm";

const FIELDS: Record<string, string> = {
  nickname: _("Nickname"),
  born: _("Year of birth"),
  weapon: _("Weapon"),
  hand: _("Hand"),
  joined: _("Joined the club on"),
  consent: _("Consent to keep these records, given on"),
  noise_self: _("Consent to shouting and stamping, the fencer"),
  noise_guardian: _("Consent to shouting and stamping, a parent or guardian"),
  note: _("Note for the coaches"),
  archived: _("Archived"),
};

export function History({ fencer }: { fencer: Fencer }) {
  const [open, setOpen] = useState(false);
  return (
    <details
      class="marks-show"
      data-testid="history"
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>{_("What was changed")}</summary>
      {open ? <Changes id={fencer.id} /> : null}
    </details>
  );
}

function Changes({ id }: { id: string }) {
  const path = `/api/fencers/${encodeURIComponent(id)}/changes`;
  const reply = useReply<Replies["Changes"]>(`changes:${id}`, path, id, sync.value.answered);
  return (
    <>
      <Freshness reply={reply} />
      {reply.is === "none" ? (
        <p class="soft">{_("The server does not answer: the history comes with a connection.")}</p>
      ) : null}
      {reply.data?.changes.length === 0 ? (
        <p class="soft">{_("Nothing has been changed since this fencer was added.")}</p>
      ) : null}
      <ul class="rows lined">
        {reply.data?.changes.map((change) => (
          <li key={`${change.at}${change.field}`}>
            <span>
              {_("%(field)s: %(old)s → %(now)s", {
                field: FIELDS[change.field] ?? change.field,
                old: shown(change.old),
                now: shown(change.new),
              })}
              <small>
                {_("%(day)s, %(name)s", {
                  day: dayWords(change.at),
                  name: change.name ?? _("someone"),
                })}
              </small>
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}

function shown(value: unknown): string {
  if (value === null || value === "") return _("empty");
  if (typeof value === "boolean") return value ? _("yes") : _("no");
  const text = String(value);
  if (/^\d{4}-\d\d-\d\d$/.test(text)) return dayWords(text);
  return WEAPONS[text] ?? (HANDS as Record<string, string>)[text] ?? text;
}

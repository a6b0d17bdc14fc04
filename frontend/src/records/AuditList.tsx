/** Audit log, newest first, paged. */
import { useState } from "preact/hooks";
import { useAsk, useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { fencerOf } from "../app/state";
import type { Replies } from "../device/api-types";
import { moment } from "../language/dates";
import { _ } from "../language/i18n";
import { Answer, Outcome } from "../ui/Answer";

const FIELDS: Record<string, string> = {
  nickname: _("nickname"),
  born: _("year of birth"),
  weapon: _("weapon"),
  hand: _("hand"),
  joined: _("day of joining"),
  consent: _("consent"),
  noise_self: _("consent to shouting and stamping, the fencer"),
  noise_guardian: _("consent to shouting and stamping, a parent or guardian"),
  booking: _("lessons planned"),
  note: _("note"),
  "lesson day": _("day of a lesson"),
  archived: _("put away or not"),
};

const ACTIONS: Record<string, string> = {
  added: _("added"),
  imported: _("imported with a table"),
  changed: _("changed"),
  erased: _("erased"),
  exported: _("exported"),
  looked: _("looked"),
  "link made": _("made a progress link"),
  "link closed": _("closed a progress link"),
  "links closed": _("closed the progress links"),
  "page opened": _("opened the progress page"),
  practised: _("ticked off practice at home"),
  "lesson moved": _("moved a lesson to another day"),
  "lesson removed": _("removed a lesson"),
  "taken in": _("took in what another coach marked"),
  "plan drawn": _("had a plan by chance drawn"),
  "plan withdrawn": _("withdrew a plan by chance"),
};

type Entry = Replies["AuditEntry"];

type Page = Replies["Audit"];

const PAGE = 25;
/** Actions through the progress link, without a sign-in. */
const BY_LINK = ["page opened", "practised"];

/** @param whose whether each line names the fencer */
export function AuditList({ path, whose }: { path: string; whose: boolean }) {
  const asked = useAsk<Page>(`${path}?limit=${PAGE}`);
  return <Answer of={asked}>{(first) => <Pages path={path} first={first} whose={whose} />}</Answer>;
}

function Pages({ path, first, whose }: { path: string; first: Page; whose: boolean }) {
  const doing = useDoing();
  const [older, setOlder] = useState<Page[]>([]);
  const pages = [first, ...older];
  const next = pages.at(-1)?.next ?? null;
  const more = () =>
    doing.attempt(async () => {
      const page = await thePhone().api.get<Page>(`${path}?limit=${PAGE}&before=${next}`);
      setOlder([...older, page]);
    });
  const entries = pages.flatMap((page) => page.audit);
  return (
    <>
      {entries.length === 0 ? <p class="soft">{_("Nothing yet.")}</p> : null}
      <ol class="audit" data-testid="audit">
        {entries.map((entry) => (
          <li key={entry.id}>
            <time dateTime={entry.at}>{moment(entry.at)}</time>
            <span>
              <b>{whoOf(entry)}</b> {whatOf(entry)}
              {whose ? `: ${fencerOf(entry.fencer)?.nickname ?? _("an erased fencer")}` : ""}
            </span>
          </li>
        ))}
      </ol>
      {next === null ? null : (
        <button
          type="button"
          class="plain"
          data-testid="audit-more"
          disabled={doing.busy}
          onClick={more}
        >
          {_("Older entries")}
        </button>
      )}
      <Outcome of={doing} named="audit" />
    </>
  );
}

const whoOf = ({ name, action }: Entry): string =>
  name ?? (BY_LINK.includes(action) ? _("someone with the progress link") : _("the server"));

function whatOf({ action, fields }: Entry): string {
  const which = fields
    ?.split(", ")
    .map((field) => FIELDS[field] ?? field)
    .join(", ");
  const what = ACTIONS[action] ?? action;
  return which ? `${what} (${which})` : what;
}

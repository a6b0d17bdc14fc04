/** Who looked at records and who changed them, newest first, page by page. */
import { useState } from "preact/hooks";
import { thePhone } from "../phone";
import { fencerOf } from "../state";
import { accessWords } from "../words.access";
import { Answer, moment, Outcome, useAsk, useDoing } from "./ask";

interface Entry {
  id: number;
  at: string;
  fencer: string;
  coach: string | null;
  name: string | null;
  action: string;
  fields: string | null;
}

interface Page {
  audit: Entry[];
  next: number | null;
}

const said = accessWords.audit;
const PAGE = 25;
/** What is done by way of the progress link, and so by nobody who is signed in. */
const BY_LINK = ["page opened", "practised"];

/** @param path where the server lists them; with `whose` each line names the fencer */
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
      {entries.length === 0 ? <p class="soft">{said.none}</p> : null}
      <ol class="audit" data-testid="audit">
        {entries.map((entry) => (
          <li key={entry.id}>
            <time dateTime={entry.at}>{moment(entry.at)}</time>
            <span>
              <b>{whoOf(entry)}</b> {whatOf(entry)}
              {whose ? `: ${fencerOf(entry.fencer)?.nickname ?? said.erasedFencer}` : ""}
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
          {said.more}
        </button>
      )}
      <Outcome of={doing} named="audit" />
    </>
  );
}

const whoOf = ({ name, action }: Entry): string =>
  name ?? (BY_LINK.includes(action) ? said.outside : said.server);

function whatOf({ action, fields }: Entry): string {
  const which = fields?.split(", ").map(said.fields).join(", ");
  return which ? `${said.actions(action)} (${which})` : said.actions(action);
}

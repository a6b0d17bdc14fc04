/** What a table says: places to mend, or who will be added. */
import { useEffect, useRef, useState } from "preact/hooks";
import { words } from "../words";
import { peopleWords } from "../words.people";
import { dayWords, Figures } from "./Exact";

const { imports: said, form } = peopleWords;

interface Same {
  id: string | null;
  line: number | null;
  nickname: string;
  born: number | null;
  archived: boolean;
}

export interface LookRow {
  line: number;
  nickname: string;
  born: number | null;
  weapon: string;
  hand: "right" | "left";
  joined: string | null;
  consent: string | null;
  note: string | null;
  same: Same | null;
}

export interface Look {
  text: string;
  encoding: string | null;
  delimiter: string;
  left_out: string[];
  rows: LookRow[];
  faults: { line: number; column: string; value: string; message: string }[];
}

const COLUMNS: Record<string, string> = {
  line: said.wholeLine,
  nickname: form.nickname,
  born: form.born,
  weapon: form.weapon,
  hand: form.hand,
  joined: form.joined,
  consent: form.consent,
  note: form.note,
};

interface Props {
  look: Look;
  busy: boolean;
  onGo: (alsoSame: boolean) => void;
}

export function ImportLook({ look, busy, onGo }: Props) {
  const [alsoSame, setAlsoSame] = useState(false);
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus(), []);
  const { rows, faults } = look;
  const same = rows.filter((row) => row.same !== null);
  const fresh = rows.filter((row) => row.same === null);
  const count = alsoSame ? rows.length : fresh.length;
  const title =
    faults.length > 0 ? said.faults(faults.length) : count > 0 ? said.rows(count) : said.noRows;
  return (
    <section class="card" data-testid="look-told">
      <h2 ref={head} tabIndex={-1}>
        {title}
      </h2>
      {faults.length > 0 ? (
        <>
          <p>{said.faultsLead}</p>
          <Figures
            caption={title}
            heads={[said.line, said.column, said.fault]}
            rows={faults.map(({ line, column, value, message }) => [
              line,
              COLUMNS[column] ?? column,
              value === "" ? message : said.quoted(value, message),
            ])}
          />
        </>
      ) : (
        <>
          <People title={said.rows(fresh.length)} rows={fresh} />
          {same.length > 0 ? (
            <>
              <h3>{said.same(same.length)}</h3>
              <People title={said.same(same.length)} rows={same} />
              <label class="toggle">
                <input
                  type="checkbox"
                  checked={alsoSame}
                  data-testid="also-same"
                  onChange={() => setAlsoSame(!alsoSame)}
                />
                <span>{said.sameToo}</span>
              </label>
            </>
          ) : null}
        </>
      )}
      <p class="soft">{aboutFile(look)}</p>
      {faults.length === 0 && count > 0 ? (
        <button
          type="button"
          class="strong"
          disabled={busy}
          data-testid="import-go"
          onClick={() => onGo(alsoSame)}
        >
          {said.go(count)}
        </button>
      ) : null}
    </section>
  );
}

/** Columns shown always, and those shown where a row says something there. */
const SHOWN: { head: string; of: (row: LookRow) => string | number; always?: true }[] = [
  { head: said.line, of: (row) => row.line, always: true },
  { head: form.nickname, of: (row) => row.nickname, always: true },
  { head: said.seems, of: (row) => sameWords(row.same) },
  { head: said.born, of: (row) => row.born ?? "", always: true },
  { head: form.weapon, of: (row) => words.weapons[row.weapon] ?? row.weapon, always: true },
  { head: form.hand, of: (row) => form.hands[row.hand], always: true },
  { head: said.joined, of: ({ joined }) => (joined === null ? "" : dayWords(joined, "short")) },
  { head: said.consent, of: ({ consent }) => (consent === null ? "" : dayWords(consent, "short")) },
  { head: said.note, of: (row) => row.note ?? "" },
];

function People({ title, rows }: { title: string; rows: LookRow[] }) {
  if (rows.length === 0) return null;
  const shown = SHOWN.filter(({ of, always }) => always || rows.some((row) => of(row) !== ""));
  return (
    <Figures
      caption={title}
      heads={shown.map((one) => one.head)}
      rows={rows.map((row) => shown.map(({ of }) => of(row)))}
    />
  );
}

function sameWords(same: Same | null): string {
  if (same === null) return "";
  if (same.line !== null) return said.isLine(same.line);
  const name = same.born === null ? same.nickname : `${same.nickname} (${same.born})`;
  return same.archived ? said.isArchived(name) : said.isFencer(name);
}

function aboutFile({ encoding, delimiter, left_out }: Look): string {
  const read =
    encoding === null
      ? ""
      : encoding === "Windows-1252"
        ? said.encodingCheck
        : said.encoding(encoding);
  const notRead = left_out.length === 0 ? "" : said.notRead(left_out.join(", "));
  return [read, said.delimiters[delimiter], notRead].filter(Boolean).join(" ");
}

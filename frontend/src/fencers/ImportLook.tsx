/** Preview of an import: errors to mend, or who will be added. */
import { useEffect, useRef, useState } from "preact/hooks";
import { WEAPONS } from "../app/vocabulary";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _, ngettext } from "../language/i18n";
import { Figures } from "../ui/Exact";
import { HANDS } from "./personForm";

const sameTitle = (n: number) =>
  ngettext(
    "%(n)s seems to be here already and is left out",
    "%(n)s seem to be here already and are left out",
    n,
  );

const DELIMITERS: Record<string, string> = {
  comma: _("Cells are divided by commas."),
  semicolon: _("Cells are divided by semicolons."),
  tab: _("Cells are divided by tabs."),
};

type Same = NonNullable<Replies["Row"]["same"]>;

export type LookRow = Replies["Row"];

export type Look = Replies["LookReply"];

const COLUMNS: Record<string, string> = {
  line: _("whole line"),
  nickname: _("Nickname"),
  born: _("Year of birth"),
  weapon: _("Weapon"),
  hand: _("Hand"),
  joined: _("Joined the club on"),
  consent: _("Consent to keep these records, given on"),
  note: _("Note for the coaches"),
};

/** Two words, both beginning large, the second longer than an initial. */
const FULL = /^\p{Lu}[\p{L}'-]+ \p{Lu}[\p{L}'-]{2,}$/u;

/** A warning where surnames seem to come in as nicknames. */
function FullNames({ rows }: { rows: LookRow[] }) {
  const full = rows.filter((row) => FULL.test(row.nickname)).map((row) => row.nickname);
  return full.length === 0 ? null : (
    <p class="trouble" data-testid="full-names">
      {_(
        "These look like full names: %(names)s. A nickname suffices, and no surname need be kept; shorten them in the table above, or import them as they are.",
        { names: full.slice(0, 5).join(", ") },
      )}
    </p>
  );
}

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
    faults.length > 0
      ? ngettext("%(n)s place to put right", "%(n)s places to put right", faults.length)
      : count > 0
        ? ngettext("%(n)s fencer to add", "%(n)s fencers to add", count)
        : _("Nobody to add");
  return (
    <section class="card" data-testid="look-told">
      <h2 ref={head} tabIndex={-1}>
        {title}
      </h2>
      {faults.length > 0 ? (
        <>
          <p>
            {_("Nothing was imported. Put the table above right, or the file, and look again.")}
          </p>
          <Figures
            caption={title}
            heads={[_("Line"), _("Column"), _("What to do")]}
            rows={faults.map(({ line, column, value, message }) => [
              line,
              COLUMNS[column] ?? column,
              value === "" ? message : _("“%(value)s” %(message)s", { value, message }),
            ])}
          />
        </>
      ) : (
        <>
          <People
            title={ngettext("%(n)s fencer to add", "%(n)s fencers to add", fresh.length)}
            rows={fresh}
          />
          <FullNames rows={rows} />
          {same.length > 0 ? (
            <>
              <h3>{sameTitle(same.length)}</h3>
              <People title={sameTitle(same.length)} rows={same} />
              <label class="toggle">
                <input
                  type="checkbox"
                  checked={alsoSame}
                  data-testid="also-same"
                  onChange={() => setAlsoSame(!alsoSame)}
                />
                <span>{_("Add these too: they are other people")}</span>
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
          {ngettext("Add %(n)s fencer", "Add %(n)s fencers", count)}
        </button>
      ) : null}
    </section>
  );
}

/** Columns; those not `always` shown appear if any row has a value. */
const SHOWN: { head: string; of: (row: LookRow) => string | number; always?: true }[] = [
  { head: _("Line"), of: (row) => row.line, always: true },
  { head: _("Nickname"), of: (row) => row.nickname, always: true },
  { head: _("Seems to be"), of: (row) => sameWords(row.same) },
  { head: _("Born"), of: (row) => row.born ?? "", always: true },
  { head: _("Weapon"), of: (row) => WEAPONS[row.weapon] ?? row.weapon, always: true },
  { head: _("Hand"), of: (row) => HANDS[row.hand], always: true },
  { head: _("Joined"), of: ({ joined }) => (joined === null ? "" : dayWords(joined, "short")) },
  { head: _("Consent"), of: ({ consent }) => (consent === null ? "" : dayWords(consent, "short")) },
  { head: _("Note"), of: (row) => row.note ?? "" },
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
  if (same.line !== null) return _("the one on line %(line)s", { line: same.line });
  const name = same.born === null ? same.nickname : `${same.nickname} (${same.born})`;
  return same.archived ? _("%(name)s, archived: restore instead", { name }) : name;
}

function aboutFile({ encoding, delimiter, left_out }: Look): string {
  const read =
    encoding === null
      ? ""
      : encoding === "Windows-1252"
        ? _(
            "The file was read as Windows-1252: see that names with accents are right; if not, save it as CSV UTF-8.",
          )
        : _("The file was read as %(name)s.", { name: encoding });
  const notRead =
    left_out.length === 0
      ? ""
      : _("Not read and not kept: %(heads)s.", { heads: left_out.join(", ") });
  return [read, DELIMITERS[delimiter], notRead].filter(Boolean).join(" ");
}

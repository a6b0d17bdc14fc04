/** What a rule does to fencers of different skill: words, curves, exact figures. */
import { useState } from "preact/hooks";
import { locale } from "../i18n";
import { settings } from "../settings";
import { deskWords } from "../words.desk";
import { Exact, Figures } from "./Exact";
import type { Odds, OddsRow } from "./replies";
import type { Rule } from "./ruleForm";

const said = deskWords.rules;

interface Shown {
  rule: Rule;
  odds: Odds;
}

export function RuleOdds({ shown: { rule, odds } }: { shown: Shown }) {
  const same = JSON.stringify(odds.table) === JSON.stringify(odds.default);
  const early = at(odds.default, 0.8);
  const due = at(odds.default, 0.97);
  return (
    <section class="card" data-testid="odds">
      <p data-testid="rule-says">{odds.says}</p>
      <p class="result" aria-live="polite">
        {odds.words}
      </p>
      {odds.warning ? (
        <p class="trouble" data-testid="odds-warning">
          <b>{said.warning}.</b> {odds.warning}
        </p>
      ) : null}
      <p class="soft">
        {same || early === undefined || due === undefined
          ? said.isDefault
          : said.toCompare(said.times(early.climb), said.times(due.climb), Math.round(due.cues))}
      </p>
      <Picture key={JSON.stringify(rule)} rule={rule} words={odds.words} />
      <Exact of={said.table}>
        <Figures
          caption={said.table}
          heads={[
            said.truly,
            said.up,
            said.back,
            said.cues,
            ...(same ? [] : [said.default, said.defaultCues]),
          ]}
          rows={odds.table.map((row, k) => {
            const other = odds.default[k];
            return [
              said.percent(row.p),
              said.percent(row.climb),
              said.percent(row.back),
              said.figure(row.cues),
              ...(same || other === undefined
                ? []
                : [said.percent(other.climb), said.figure(other.cues)]),
            ];
          })}
        />
        <p class="soft">{said.states(odds.states)}</p>
      </Exact>
    </section>
  );
}

function Picture({ rule, words }: { rule: Rule; words: string }) {
  const [away, setAway] = useState(false);
  if (away) return <p class="soft">{said.pictureAway}</p>;
  const shape = matchMedia("(max-width: 40rem)").matches ? "tall" : "wide";
  const query = new URLSearchParams({
    rule: JSON.stringify(rule),
    tone: tone(),
    shape,
    lang: locale,
  });
  return (
    <img
      class="curves"
      src={`/api/rules/odds.svg?${query}`}
      alt={said.picture(words)}
      onError={() => setAway(true)}
    />
  );
}

/** The page's colours just now. */
function tone(): "dark" | "light" {
  const { theme } = settings.value;
  if (theme !== "auto") return theme === "dark" ? "dark" : "light";
  return matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
}

const at = (rows: OddsRow[], p: number): OddsRow | undefined => rows.find((row) => row.p === p);

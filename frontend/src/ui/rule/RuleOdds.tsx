/** A rule's odds for fencers of different skill: sentence, curves, table. */
import { useState } from "preact/hooks";
import type { Odds, OddsRow } from "../../app/replies";
import { settings } from "../../app/settings";
import { _, figure, locale, ngettext, percent } from "../../language/i18n";
import { Exact, Figures } from "../Exact";
import type { Rule } from "./ruleForm";
import "./rule.css";

/** So many times in 100, in words. */
export const oddsWords = (chance: number) => {
  const n = Math.round(100 * chance);
  if (n <= 0) return _("less than once in 100");
  if (n >= 100) return _("more than 99 times in 100");
  return n === 1 ? _("about once in 100") : _("about %(n)s times in 100", { n });
};

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
      {odds.lessons?.never ? (
        <p class="trouble" data-testid="never-met">
          {odds.lessons.never}
        </p>
      ) : null}
      <p class="result" aria-live="polite">
        {odds.lessons?.words ?? odds.words}
      </p>
      {odds.marked ? <p data-testid="odds-marked">{odds.marked.words}</p> : null}
      {odds.warning ? (
        <p class="trouble" data-testid="odds-warning">
          <b>{_("Easily fooled")}.</b> {odds.warning}
        </p>
      ) : null}
      <p class="soft">
        {same || early === undefined || due === undefined
          ? _("This is the default rule.")
          : _(
              "The default, to compare: right 8 times in 10, sent up %(early)s; right 97 times in 100, sent up %(due)s, after about %(quick)s cues.",
              {
                early: oddsWords(early.climb),
                due: oddsWords(due.climb),
                quick: Math.round(due.cues),
              },
            )}
      </p>
      <Picture key={JSON.stringify(rule)} rule={rule} words={odds.words} />
      <Exact of={_("Exact odds of a fresh count, without a cap on cues")}>
        <Figures
          caption={_("Exact odds of a fresh count, without a cap on cues")}
          heads={[
            _("Truly right"),
            _("Sent up"),
            _("Sent back"),
            _("Cues"),
            ...(same ? [] : [_("The default"), _("The default: cues")]),
          ]}
          rows={odds.table.map((row, k) => {
            const other = odds.default[k];
            return [
              percent(row.p, 1),
              percent(row.climb, 1),
              percent(row.back, 1),
              figure(row.cues, 1),
              ...(same || other === undefined
                ? []
                : [percent(other.climb, 1), figure(other.cues, 1)]),
            ];
          })}
        />
        <p class="soft">
          {ngettext(
            "The rule compiles to a table of %(n)s state.",
            "The rule compiles to a table of %(n)s states.",
            odds.states,
          )}
        </p>
      </Exact>
    </section>
  );
}

function Picture({ rule, words }: { rule: Rule; words: string }) {
  const [away, setAway] = useState(false);
  if (away) {
    return <p class="soft">{_("The picture did not arrive; the figures below say the same.")}</p>;
  }
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
      alt={[
        _(
          "Two curves against how often the fencer is truly right: the chance to be sent up, and the cues it takes; this rule beside the default.",
        ),
        words,
      ].join(" ")}
      onError={() => setAway(true)}
    />
  );
}

/** The colour scheme in effect. */
function tone(): "dark" | "light" {
  const { theme } = settings.value;
  if (theme !== "auto") return theme === "dark" ? "dark" : "light";
  return matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
}

const at = (rows: OddsRow[], p: number): OddsRow | undefined => rows.find((row) => row.p === p);

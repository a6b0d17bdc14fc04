/** Any rule by its family and figures, with its odds. */
import { useEffect, useState } from "preact/hooks";
import { _ } from "../../language/i18n";
import { RuleFields } from "./RuleFields";
import { RuleOdds } from "./RuleOdds";
import { draftRule, formOf, type Rule } from "./ruleForm";
import { type Terms, useOdds } from "./useOdds";

/** Time to type on before the odds are asked for, in ms. */
const PAUSE = 300;

interface Props {
  rule: Rule | null;
  terms: Terms;
  /** The rule as typed; figures that are not valid stay in it, for the server to refuse. */
  onRule: (rule: Rule) => void;
}

export function ExactRule({ rule, terms, onRule }: Props) {
  const [form, setForm] = useState(() => formOf(rule));
  const [given, setGiven] = useState(rule);
  const [odds, ask] = useOdds(terms);
  if (given !== rule) {
    // the rule changed outside the form: a setting, a restored draft or a loaded file
    setGiven(rule);
    setForm(formOf(rule));
  }
  useEffect(() => {
    const later = setTimeout(() => void ask(form), PAUSE);
    return () => clearTimeout(later);
  }, [form, terms.kind, terms.cap, terms.usual, terms.startles]);
  return (
    <div class="cards">
      <div>
        <RuleFields
          {...form}
          errors={odds.errors}
          onChange={(next) => {
            const typed = draftRule(next.family, next.values);
            setForm(next);
            setGiven(typed);
            onRule(typed);
          }}
        />
        {odds.trouble ? (
          <p class="trouble" role="alert">
            {_("The server could not work this rule out:")} {odds.trouble}
          </p>
        ) : null}
        {odds.state === "away" ? (
          <p class="trouble" role="alert" data-testid="rules-away">
            {_(
              "The server does not answer. The odds are worked out there, so this page needs a connection; everything on the strip goes on without.",
            )}{" "}
            <button type="button" class="quiet" onClick={() => void ask(form)}>
              {_("Try again")}
            </button>
          </p>
        ) : null}
      </div>
      <div>{odds.shown ? <RuleOdds shown={odds.shown} /> : null}</div>
    </div>
  );
}

/** The rule of a drill being written: chosen here, with what it does before it is saved. */
import { useEffect, useState } from "preact/hooks";
import type { DrillDocument } from "../device/types";
import { deskWords } from "../words.desk";
import { drillWords } from "../words.drills";
import { Fault } from "./Fault";
import { NumberField, RuleFields } from "./RuleFields";
import { RuleOdds } from "./RuleOdds";
import { draftRule, formOf, ruleOf } from "./ruleForm";
import { useOdds } from "./useOdds";
import { WhatIf } from "./WhatIf";

const said = drillWords.write;

interface Props {
  doc: DrillDocument;
  /** The drill, where one is changed: its fencers can be looked at. */
  drill: string | null;
  errors: Record<string, string[]>;
  onChange: (doc: DrillDocument) => void;
}

export function RuleCard({ doc, drill, errors, onChange }: Props) {
  const [form, setForm] = useState(() => formOf(doc.rule));
  const [odds, ask] = useOdds();
  const [given, setGiven] = useState(doc.rule);
  if (given !== doc.rule) {
    // the rule came from elsewhere: a draft found, a file loaded
    setGiven(doc.rule);
    setForm(formOf(doc.rule));
  }
  const { rule, errors: wrong } = ruleOf(form.family, form.values);
  const fits = Object.keys(wrong).length === 0;
  useEffect(() => {
    const later = setTimeout(() => void ask(form), 300);
    return () => clearTimeout(later);
  }, [form]);
  return (
    <div class="cards">
      <section class="card" data-testid="edit-rule">
        <h2>{said.rule}</h2>
        <RuleFields
          {...form}
          errors={odds.errors}
          onChange={(next) => {
            setForm(next);
            const chosen = draftRule(next.family, next.values);
            setGiven(chosen);
            onChange({ ...doc, rule: chosen });
          }}
        />
        <NumberField
          name="cap"
          label={said.cap}
          value={String(doc.cap ?? "")}
          error={errors.cap?.join(" ")}
          onChange={(text) => {
            const cap = Number(text);
            onChange({
              ...doc,
              cap: (text.trim() !== "" && !Number.isNaN(cap) ? cap : text) as number,
            });
          }}
        />
        <Fault errors={errors} at={["rule*"]} />
        {odds.state === "away" ? (
          <p class="trouble" role="alert">
            {deskWords.rules.away}
          </p>
        ) : null}
        {odds.trouble ? (
          <p class="trouble" role="alert">
            {deskWords.rules.trouble} {odds.trouble}
          </p>
        ) : null}
      </section>
      <div>
        {odds.shown ? <RuleOdds shown={odds.shown} /> : null}
        {fits && drill !== null ? <WhatIf rule={rule} drill={drill} /> : null}
      </div>
    </div>
  );
}

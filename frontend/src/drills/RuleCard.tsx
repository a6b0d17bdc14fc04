/** The rule of a draft, with its odds and a what-if for one fencer. */
import type { DrillDocument } from "../device/types";
import { _ } from "../language/i18n";
import { Disclosure } from "../ui/Disclosure";
import { ExactRule } from "../ui/rule/ExactRule";
import { NumberField } from "../ui/rule/RuleFields";
import { RuleSettings, USUAL, useSettings } from "../ui/rule/RuleSettings";
import { fits } from "../ui/rule/ruleForm";
import { WhatIf } from "../ui/rule/WhatIf";
import { Fault } from "./Fault";

interface Props {
  doc: DrillDocument;
  /** Id of the drill being changed, or null; needed for the what-if. */
  drill: string | null;
  errors: Record<string, string[]>;
  onChange: (doc: DrillDocument) => void;
}

export function RuleCard({ doc, drill, errors, onChange }: Props) {
  const { reply, usual } = useSettings(doc.kind);
  const rule = doc.rule ?? usual;
  const cap = typeof doc.cap === "number" && errors.cap === undefined ? { cap: doc.cap } : {};
  return (
    <div class="cards">
      <section class="card" data-testid="edit-rule">
        <h2>{_("Its rule")}</h2>
        <RuleSettings
          reply={reply}
          rule={doc.rule ?? null}
          onPick={(one) => onChange({ ...doc, rule: one.name === USUAL ? null : one.rule })}
        />
        <Fault errors={errors} at={["rule*"]} />
        <Disclosure class="exact" summary={_("Exact")} data-testid="rule-exact">
          {() => (
            <ExactRule
              rule={rule}
              terms={{ kind: doc.kind, ...cap }}
              onRule={(typed) => onChange({ ...doc, rule: typed })}
            />
          )}
        </Disclosure>
        <NumberField
          name="cap"
          label={_("Cues at one rung before the drill stops for the day")}
          value={String(doc.cap ?? "")}
          error={errors.cap?.join(" ")}
          onChange={(text) => {
            const typed = Number(text);
            const is = text.trim() !== "" && !Number.isNaN(typed);
            onChange({ ...doc, cap: (is ? typed : text) as number });
          }}
        />
      </section>
      {drill !== null && rule !== null && fits(rule) ? <WhatIf rule={rule} drill={drill} /> : null}
    </div>
  );
}

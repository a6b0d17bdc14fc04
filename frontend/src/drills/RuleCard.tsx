/** The rule of a draft, with its odds and a what-if for one fencer. */
import type { DrillDocument } from "../device/types";
import { _ } from "../language/i18n";
import { Disclosure } from "../ui/Disclosure";
import { ExactRule } from "../ui/rule/ExactRule";
import { NumberField } from "../ui/rule/RuleFields";
import { RuleSettings, USUAL, useSettings } from "../ui/rule/RuleSettings";
import { fits } from "../ui/rule/ruleForm";
import type { Terms } from "../ui/rule/useOdds";
import { WhatIf } from "../ui/rule/WhatIf";
import { Fault } from "./Fault";
import { COUNT_FIELDS } from "./fieldNames";

type Count = keyof typeof COUNT_FIELDS;

const COUNTS = Object.keys(COUNT_FIELDS) as Count[];

/** As typed; what is no number stays, for the server to refuse. Empty means what is usual. */
function withCount(doc: DrillDocument, name: Count, text: string): DrillDocument {
  const { [name]: _was, ...others } = doc;
  if (text === "") return others;
  const typed = Number(text);
  return { ...others, [name]: (Number.isNaN(typed) ? text : typed) as number };
}

interface Props {
  doc: DrillDocument;
  /** Id of the drill being changed, or null; needed for the what-if. */
  drill: string | null;
  errors: Record<string, string[]>;
  onChange: (doc: DrillDocument) => void;
}

export function RuleCard({ doc, drill, errors, onChange }: Props) {
  const valid = (name: Count) =>
    typeof doc[name] === "number" && errors[name] === undefined ? { [name]: doc[name] } : {};
  const terms: Terms = { kind: doc.kind, ...valid("cap"), ...valid("usual"), ...valid("startles") };
  const { reply, usual } = useSettings(doc.kind, terms.usual);
  const rule = doc.rule ?? usual;
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
              terms={terms}
              onRule={(typed) => onChange({ ...doc, rule: typed })}
            />
          )}
        </Disclosure>
        {COUNTS.filter((name) => name !== "startles" || doc.heat !== null).map((name) => (
          <NumberField
            key={name}
            name={name}
            label={COUNT_FIELDS[name]}
            value={String(doc[name] ?? "")}
            error={errors[name]?.join(" ")}
            onChange={(text) => onChange(withCount(doc, name, text.trim()))}
          />
        ))}
      </section>
      {drill !== null && rule !== null && fits(rule) ? <WhatIf rule={rule} drill={drill} /> : null}
    </div>
  );
}

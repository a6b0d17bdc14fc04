/** Try out rules: three settings for a kind of drill, and any rule behind "Exact". */
import { useState } from "preact/hooks";
import { isObserver } from "../app/state";
import { KINDS } from "../app/vocabulary";
import { _ } from "../language/i18n";
import { Choice } from "../ui/Choice";
import { Disclosure } from "../ui/Disclosure";
import { ExactRule } from "../ui/rule/ExactRule";
import { RuleSettings, useSettings } from "../ui/rule/RuleSettings";
import { fits, type Rule } from "../ui/rule/ruleForm";
import { WhatIf } from "../ui/rule/WhatIf";
import { PageHead } from "../ui/SyncPill";
import { GiveRule } from "./GiveRule";

export function Rules() {
  const [kind, setKind] = useState("sensitization");
  const [picked, setPicked] = useState<Rule | null>(null);
  const { reply, usual } = useSettings(kind);
  const rule = picked ?? usual;
  return (
    <main class="page" data-testid="rules">
      <PageHead title={_("What a rule does")} />
      <p class="soft">
        {_(
          "A rule decides when to climb and when to step back. No rule knows how good a fencer is; it only sees answers. Here is how often it is right.",
        )}
      </p>
      <section class="card">
        <Choice
          name="kind"
          labels={KINDS}
          value={kind}
          onPick={(next) => {
            setKind(next);
            setPicked(null);
          }}
        />
        <RuleSettings reply={reply} rule={rule} onPick={(one) => setPicked(one.rule)} />
        <Disclosure class="exact" summary={_("Exact")} data-testid="rule-exact">
          {() => <ExactRule rule={rule} terms={{ kind }} onRule={setPicked} />}
        </Disclosure>
      </section>
      {rule !== null && fits(rule) ? (
        <div class="cards" key={kind}>
          <WhatIf rule={rule} kind={kind} />
          {isObserver() ? null : <GiveRule rule={rule} kind={kind} />}
        </div>
      ) : null}
    </main>
  );
}

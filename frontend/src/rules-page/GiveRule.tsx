/** Open a drill's editor with this rule in the draft. */
import { useState } from "preact/hooks";
import { saveDraft, savedDraft } from "../app/drafts";
import { go } from "../app/router";
import { drillOf } from "../app/state";
import { _ } from "../language/i18n";
import type { Rule } from "../ui/rule/ruleForm";
import { DrillPick } from "../ui/rule/WhatIf";

export function GiveRule({ rule, kind }: { rule: Rule; kind: string }) {
  const [drill, setDrill] = useState("");
  const give = async (event: Event) => {
    event.preventDefault();
    const document = drillOf(drill)?.document;
    if (document === undefined) return;
    const from = `change/${drill}`;
    await saveDraft(from, { ...((await savedDraft(from)) ?? document), rule });
    go(`/drills/${drill}/change`);
  };
  return (
    <section class="card" data-testid="give-rule">
      <h2>{_("Give this rule to a drill")}</h2>
      <p class="soft">
        {_(
          "Choose a drill. It opens with this rule in it; nothing changes until you save it there.",
        )}
      </p>
      <form onSubmit={give}>
        <DrillPick value={drill} kind={kind} onPick={setDrill} />
        <button type="submit" class="plain" disabled={drill === ""} data-testid="give-rule-go">
          {_("Open the drill with this rule")}
        </button>
      </form>
    </section>
  );
}

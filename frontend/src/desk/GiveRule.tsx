/** Take a rule from the rule page to a drill, as a draft that is saved there. */
import { useState } from "preact/hooks";

import { go } from "../router";
import { drillOf } from "../state";
import { drillWords } from "../words.drills";
import { keepDraft, keptDraft } from "./drafts";
import type { Rule } from "./ruleForm";
import { DrillPick } from "./WhatIf";

const said = drillWords.give;

export function GiveRule({ rule }: { rule: Rule }) {
  const [drill, setDrill] = useState("");
  const give = async (event: Event) => {
    event.preventDefault();
    const document = drillOf(drill)?.document;
    if (document === undefined) return;
    const from = `change/${drill}`;
    await keepDraft(from, { ...((await keptDraft(from)) ?? document), rule });
    go(`/drills/${drill}/change`);
  };
  return (
    <section class="card" data-testid="give-rule">
      <h2>{said.title}</h2>
      <p class="soft">{said.lead}</p>
      <form onSubmit={give}>
        <DrillPick value={drill} onPick={setDrill} />
        <button type="submit" class="plain" disabled={drill === ""} data-testid="give-rule-go">
          {said.go}
        </button>
      </form>
    </section>
  );
}

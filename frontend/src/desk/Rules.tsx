/** What a rule does to fencers of different skill, before anyone is taught by it. */
import { useEffect, useState } from "preact/hooks";
import { PageHead } from "../SyncPill";
import { session } from "../state";
import { deskWords } from "../words.desk";
import { GiveRule } from "./GiveRule";
import { RuleFields, type RuleState } from "./RuleFields";
import { RuleOdds } from "./RuleOdds";
import { firstValues, ruleOf } from "./ruleForm";
import { useOdds } from "./useOdds";
import { WhatIf } from "./WhatIf";

const said = deskWords.rules;
const FIRST: RuleState = { family: "changepoint", values: firstValues("changepoint") };

export function Rules() {
  const [form, setForm] = useState(FIRST);
  const [odds, ask] = useOdds();
  const show = async (of: RuleState) => {
    const [wrong] = Object.keys(await ask(of));
    if (wrong !== undefined) document.getElementById(`rule-${wrong}`)?.focus();
  };
  useEffect(() => {
    void show(form);
  }, []);
  const { rule, errors } = ruleOf(form.family, form.values);
  const submit = (event: Event) => {
    event.preventDefault();
    void show(form);
  };
  return (
    <main class="page" data-testid="rules">
      <PageHead title={said.title} />
      <p class="soft">{said.lead}</p>
      <div class="cards">
        <form class="card" noValidate onSubmit={submit}>
          <RuleFields
            {...form}
            errors={odds.errors}
            onChange={(next, picked) => {
              setForm(next);
              if (picked) void show(next);
            }}
          />
          <button type="submit" class="strong" data-testid="show-odds">
            {odds.state === "asking" ? said.working : said.go}
          </button>
          {odds.trouble ? (
            <p class="trouble" role="alert">
              {said.trouble} {odds.trouble}
            </p>
          ) : null}
        </form>
        <div>
          {odds.state === "away" ? (
            <p class="trouble" role="alert" data-testid="rules-away">
              {said.away}{" "}
              <button type="button" class="quiet" onClick={() => show(form)}>
                {said.again}
              </button>
            </p>
          ) : null}
          {odds.shown ? <RuleOdds shown={odds.shown} /> : null}
        </div>
      </div>
      {Object.keys(errors).length === 0 ? (
        <div class="cards">
          <WhatIf rule={rule} />
          {session.value?.coach.role === "observer" ? null : <GiveRule rule={rule} />}
        </div>
      ) : null}
    </main>
  );
}

/** What another rule would do to one fencer, by the fencer's own marks. */
import { useState } from "preact/hooks";
import { NoAnswer } from "../device/api";
import { thePhone } from "../phone";
import { club, drillOf } from "../state";
import { deskWords } from "../words.desk";
import { drillWords } from "../words.drills";
import { Exact, Figures } from "./Exact";
import type { Spread, WhatIfTold } from "./replies";
import type { Rule } from "./ruleForm";

const said = drillWords.whatIf;
const { percent, figure } = deskWords.rules;

interface Props {
  rule: Rule;
  /** The drill it is for; left out, one is chosen here. */
  drill?: string;
}

export function WhatIf({ rule, drill: given }: Props) {
  const [chosen, setChosen] = useState("");
  const [fencer, setFencer] = useState("");
  const [told, setTold] = useState<{ for: string; told: WhatIfTold } | null>(null);
  const [state, setState] = useState<"idle" | "asking" | "away">("idle");
  const [trouble, setTrouble] = useState("");
  const drill = given ?? chosen;
  const asked = JSON.stringify([rule, drill, fencer]);
  const weapons = drillOf(drill)?.weapon;
  const ask = async (event: Event) => {
    event.preventDefault();
    setState("asking");
    setTrouble("");
    const path = `/api/drills/${drill}/fencers/${fencer}/odds`;
    try {
      const reply = await thePhone().api.send<WhatIfTold>("POST", path, { rule });
      setTold({ for: asked, told: reply });
      setState("idle");
    } catch (error) {
      setState(error instanceof NoAnswer ? "away" : "idle");
      if (!(error instanceof NoAnswer)) setTrouble((error as Error).message);
    }
  };
  return (
    <section class="card" data-testid="what-if">
      <h2>{said.title}</h2>
      <p class="soft">{said.lead}</p>
      <form onSubmit={ask}>
        {given === undefined ? <DrillPick value={chosen} onPick={setChosen} /> : null}
        <label class="field">
          <span>{said.fencer}</span>
          <select
            value={fencer}
            data-testid="what-if-fencer"
            onChange={(event) => setFencer(event.currentTarget.value)}
          >
            <option value="">{said.pick}</option>
            {(club.value?.fencers ?? [])
              .filter((one) => !one.archived && (weapons?.includes(one.weapon) ?? true))
              .map((one) => (
                <option key={one.id} value={one.id}>
                  {one.nickname}
                </option>
              ))}
          </select>
        </label>
        <button
          type="submit"
          class="plain"
          disabled={drill === "" || fencer === ""}
          data-testid="what-if-go"
        >
          {state === "asking" ? said.working : said.go}
        </button>
      </form>
      {state === "away" ? (
        <p class="trouble" role="alert">
          {said.away}
        </p>
      ) : null}
      {trouble ? (
        <p class="trouble" role="alert">
          {said.trouble} {trouble}
        </p>
      ) : null}
      {told !== null && told.for === asked ? <Told told={told.told} /> : null}
    </section>
  );
}

function Told({ told: { seen, few, present, edited, words } }: { told: WhatIfTold }) {
  const rows: [string, (one: Spread) => string][] = [
    [said.climb, (one) => percent(one.climb)],
    [said.climbRange, (one) => said.to(percent(one.climb_low), percent(one.climb_high))],
    [said.back, (one) => percent(one.back)],
    [said.rests, (one) => percent(one.rests)],
    [said.cues, (one) => figure(one.cues)],
    [said.cuesRange, (one) => said.to(one.cues_low, one.cues_high)],
  ];
  return (
    <div class="told" data-testid="what-if-told" aria-live="polite">
      <p>{seen}</p>
      <h3>{said.now}</h3>
      <p>{present.words}</p>
      <h3>{said.edited}</h3>
      <p>{edited.words}</p>
      <p class="result">{words}</p>
      {few ? null : (
        <Exact of={said.exact}>
          <Figures
            caption={said.exact}
            heads={[said.what, said.now, said.edited]}
            rows={rows.map(([name, of]) => [name, of(present), of(edited)])}
          />
          <p class="soft">{said.cautious}</p>
        </Exact>
      )}
    </div>
  );
}

export const DrillPick = ({
  value,
  onPick,
}: {
  value: string;
  onPick: (drill: string) => void;
}) => (
  <label class="field">
    <span>{said.drill}</span>
    <select
      value={value}
      data-testid="pick-drill"
      onChange={(event) => onPick(event.currentTarget.value)}
    >
      <option value="">{said.pick}</option>
      {(club.value?.drills ?? [])
        .filter((one) => !one.archived)
        .map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
    </select>
  </label>
);

/** What a rule would do to one fencer, judged by the fencer's own marks. */
import { useState } from "preact/hooks";
import { thePhone } from "../../app/phone";
import type { Spread, WhatIfTold } from "../../app/replies";
import { club, drillOf } from "../../app/state";
import { NoAnswer } from "../../device/api";
import { _, figure, percent } from "../../language/i18n";
import { Exact, Figures } from "../Exact";
import type { Rule } from "./ruleForm";
import "./rule.css";

interface Props {
  rule: Rule;
  /** Id of the drill; if omitted, the coach picks one here. */
  drill?: string;
  /** Kind of the drills to pick from. */
  kind?: string;
}

export function WhatIf({ rule, drill: given, kind }: Props) {
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
      <h2>{_("What would happen to a fencer like this one")}</h2>
      <p class="soft">
        {_("Worked out from the fencer's own marks at the rung of today, for one fresh count.")}
      </p>
      <form onSubmit={ask}>
        {given === undefined ? <DrillPick value={chosen} kind={kind} onPick={setChosen} /> : null}
        <label class="field">
          <span>{_("Fencer")}</span>
          <select
            value={fencer}
            data-testid="what-if-fencer"
            onChange={(event) => setFencer(event.currentTarget.value)}
          >
            <option value="">{_("Choose …")}</option>
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
          {state === "asking" ? _("Working it out …") : _("Work it out")}
        </button>
      </form>
      {state === "away" ? (
        <p class="trouble" role="alert">
          {_("The server does not answer. This is worked out there: try again with a connection.")}
        </p>
      ) : null}
      {trouble ? (
        <p class="trouble" role="alert">
          {_("The server could not work it out:")} {trouble}
        </p>
      ) : null}
      {told !== null && told.for === asked ? <Told told={told.told} /> : null}
    </section>
  );
}

/** A range whose ends read alike is told by one of them. */
const between = (low: string, high: string): string =>
  low === high ? low : _("%(low)s to %(high)s", { low, high });

function Told({ told: { seen, few, present, edited, words } }: { told: WhatIfTold }) {
  const rows: [string, (one: Spread) => string][] = [
    [_("Sent up"), (one) => percent(one.climb, 1)],
    [
      _("Sent up, 80 % range"),
      (one) => between(percent(one.climb_low, 1), percent(one.climb_high, 1)),
    ],
    [_("Sent back"), (one) => percent(one.back, 1)],
    [_("Drill stopped for the day"), (one) => percent(one.rests, 1)],
    [_("Cues on average"), (one) => figure(one.cues, 1)],
    [_("Cues, 80 % range"), (one) => between(String(one.cues_low), String(one.cues_high))],
  ];
  return (
    <div class="told" data-testid="what-if-told" aria-live="polite">
      <p>{seen}</p>
      <h3>{_("The drill's rule now")}</h3>
      <p>{present.words}</p>
      <h3>{_("This rule")}</h3>
      <p>{edited.words}</p>
      <p class="result">{words}</p>
      {few ? null : (
        <Exact of={_("Chances and cues of one fresh count")}>
          <Figures
            caption={_("Chances and cues of one fresh count")}
            heads={[_("What"), _("The drill's rule now"), _("This rule")]}
            rows={rows.map(([name, of]) => [name, of(present), of(edited)])}
          />
          <p class="soft">
            {_(
              "The range of the chance is there because the marks are few; the true chance is likely within it 8 times in 10.",
            )}
          </p>
        </Exact>
      )}
    </div>
  );
}

export const DrillPick = ({
  value,
  kind,
  onPick,
}: {
  value: string;
  /** Of the drills to choose from; all kinds if undefined. */
  kind: string | undefined;
  onPick: (drill: string) => void;
}) => (
  <label class="field">
    <span>{_("Drill")}</span>
    <select
      value={value}
      data-testid="pick-drill"
      onChange={(event) => onPick(event.currentTarget.value)}
    >
      <option value="">{_("Choose …")}</option>
      {(club.value?.drills ?? [])
        .filter((one) => !one.archived && (kind === undefined || one.kind === kind))
        .map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
    </select>
  </label>
);

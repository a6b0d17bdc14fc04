/** Asking the server what a rule does. */
import { useRef, useState } from "preact/hooks";
import { NoAnswer, Problem } from "../device/api";
import { thePhone } from "../phone";
import type { RuleState } from "./RuleFields";
import type { Odds } from "./replies";
import { fieldErrors, type Rule, ruleOf, type Values } from "./ruleForm";

interface OddsState {
  shown: { rule: Rule; odds: Odds } | null;
  errors: Values;
  state: "idle" | "asking" | "away";
  /** What the server said where no field is at fault. */
  trouble: string;
}

/** The odds last asked for, and a function that asks; it gives back the fields at fault. */
export function useOdds(): [OddsState, (of: RuleState) => Promise<Values>] {
  const [now, setNow] = useState<OddsState>({
    shown: null,
    errors: {},
    state: "idle",
    trouble: "",
  });
  const turn = useRef(0);
  const ask = async ({ family, values }: RuleState): Promise<Values> => {
    turn.current += 1;
    const mine = turn.current;
    const tell = (change: Partial<OddsState>) => {
      if (mine === turn.current) setNow((before) => ({ ...before, trouble: "", ...change }));
    };
    const { rule, errors } = ruleOf(family, values);
    if (Object.keys(errors).length > 0) {
      tell({ errors });
      return errors;
    }
    tell({ errors, state: "asking" });
    try {
      const odds = await thePhone().api.send<Odds>("POST", "/api/rules/odds", { rule });
      tell({ shown: { rule, odds }, state: "idle" });
      return {};
    } catch (error) {
      if (error instanceof NoAnswer) {
        tell({ state: "away" });
        return {};
      }
      const refused = error instanceof Problem ? fieldErrors(error.errors, family) : {};
      const none = Object.keys(refused).length === 0;
      tell({ errors: refused, state: "idle", trouble: none ? (error as Error).message : "" });
      return refused;
    }
  };
  return [now, ask];
}

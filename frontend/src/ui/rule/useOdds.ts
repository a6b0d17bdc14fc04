/** Fetches a rule's odds. */
import { useRef, useState } from "preact/hooks";
import { thePhone } from "../../app/phone";
import type { Odds } from "../../app/replies";
import { NoAnswer, Problem } from "../../device/api";
import type { RuleState } from "./RuleFields";
import { fieldErrors, type Rule, ruleOf, type Values } from "./ruleForm";

interface OddsState {
  shown: { rule: Rule; odds: Odds } | null;
  errors: Values;
  state: "idle" | "asking" | "away";
  /** Error that belongs to no field. */
  trouble: string;
}

/** What a drill has beside its rule that bears on its odds. */
export interface Terms {
  kind: string;
  cap?: number;
  usual?: number;
  startles?: number;
}

/**
 * @param terms of the drill
 * @returns the latest odds, and a function that requests new ones and resolves to the invalid
 * fields
 */
export function useOdds(terms: Terms): [OddsState, (of: RuleState) => Promise<Values>] {
  const [now, setNow] = useState<OddsState>({
    shown: null,
    errors: {},
    state: "idle",
    trouble: "",
  });
  const requests = useRef(0);
  const ask = async ({ family, values }: RuleState): Promise<Values> => {
    requests.current += 1;
    const mine = requests.current;
    const tell = (change: Partial<OddsState>) => {
      if (mine === requests.current) setNow((before) => ({ ...before, trouble: "", ...change }));
    };
    const { rule, errors } = ruleOf(family, values);
    if (Object.keys(errors).length > 0) {
      tell({ errors });
      return errors;
    }
    tell({ errors, state: "asking" });
    try {
      const odds = await thePhone().api.send<Odds>("POST", "/api/rules/odds", {
        rule,
        ...terms,
      });
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

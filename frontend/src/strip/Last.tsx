/** The last mark, and its undo in one tap, in place. */
import { useEffect, useMemo } from "preact/hooks";
import { _ } from "../language/i18n";
import { giving } from "../lesson/giving";
import { folded, live } from "../lesson/live";
import { Chip } from "../ui/Chip";
import { actName } from "../ui/marks";
import { takeBack } from "./act";
import { refusal } from "./respond";

export function Last() {
  const last = folded.value?.acts.at(-1);
  const name = last ? actName(last, live.value?.charts) : "";
  // memoised: most marks are like the one before
  const label = useMemo(
    () => (
      <>
        {last ? <Chip act={last} /> : null}
        <span>{name}</span>
      </>
    ),
    [name],
  );
  return (
    <>
      <p class="last" data-testid="last-mark" data-last={last?.id}>
        {label}
      </p>
      <button
        type="button"
        class="act undo"
        data-testid="undo"
        disabled={last === undefined}
        onClick={() => last && takeBack(last)}
      >
        {_("Undo")}
      </button>
    </>
  );
}

/** Why a tap moved nothing; gone with the next one, and once the cue is said to be another. */
export function Refusal() {
  const { given, loud } = giving.value;
  useEffect(() => {
    refusal.value = "";
  }, [given, loud]);
  return refusal.value === "" ? null : (
    <button
      type="button"
      class="refusal"
      data-testid="refusal"
      onClick={() => {
        refusal.value = "";
      }}
    >
      {refusal.value}
    </button>
  );
}

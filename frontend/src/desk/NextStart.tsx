/** Where the next lesson starts, and when to re-check. */
import { deskWords } from "../words.desk";
import { dayWords, Exact, Figures } from "./Exact";
import { type NextProps, startsOf } from "./sum";

export function NextStart(props: NextProps) {
  const starts = startsOf(props);
  const [first] = starts;
  if (first === undefined) return null;
  const by = first.until === null ? "" : dayWords(first.until);
  const { after, lists } = deskWords;
  return (
    <>
      <p data-testid="next">
        {first.check ? after.recheck(first.cue, by) : after.again(first.cue)}
      </p>
      {starts.length < 2 ? null : (
        <Exact of={lists.when}>
          <Figures
            caption={lists.when}
            heads={[lists.when, lists.starts]}
            rows={starts.map(({ until, cue: at }) => [
              until === null ? after.later : after.by(dayWords(until)),
              at,
            ])}
          />
        </Exact>
      )}
    </>
  );
}

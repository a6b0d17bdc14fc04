/** How alike a second person marked the lesson, and on which cues the two differ. */
import { club } from "../state";
import { words } from "../words";
import { deskWords } from "../words.desk";
import { said } from "../words.observer";
import { Exact } from "./Exact";
import type { Agreed } from "./replies";

export function Observers({ agreed }: { agreed: Record<string, Agreed> }) {
  const all = Object.entries(agreed);
  if (all.length === 0) return null;
  return (
    <>
      <h3>{deskWords.after.observers}</h3>
      {all.map(([coach, one]) => (
        <Observer key={coach} coach={coach} agreed={one} />
      ))}
    </>
  );
}

function Observer({ coach, agreed }: { coach: string; agreed: Agreed }) {
  const name = club.value?.coaches.find(({ id }) => id === coach)?.name ?? deskWords.after.someone;
  const { observed, trials, apart } = agreed;
  return (
    <div data-testid="observer">
      <p>
        <b>{deskWords.after.observer(name)}.</b>{" "}
        {agreed.pairs === 0 ? "" : said.after.pairs(agreed.pairs)} {agreed.words}
      </p>
      {apart.length === 0 ? null : (
        <details class="exact">
          <summary>
            {said.after.apart}
            <span class="unseen">: {name}</span>
          </summary>
          <ul>
            {apart.map(({ number, cue, coach: mine, second }, at) => (
              <li key={`${number}${at}`}>
                {said.after.apartAt(number ?? at + 1, cue, markWords(mine), markWords(second))}
              </li>
            ))}
          </ul>
        </details>
      )}
      {observed === undefined || trials === undefined ? null : (
        <Exact of={name}>
          <p data-testid="kappa">
            {deskWords.after.agreement(
              agreed.kappa,
              agreed.low ?? null,
              agreed.high ?? null,
              observed,
              trials,
            )}
          </p>
          {agreed.differ?.map(([mine, theirs, n]) => (
            <p key={mine + theirs}>
              {deskWords.after.differ(markWords(mine), markWords(theirs), n)}
            </p>
          ))}
        </Exact>
      )}
    </div>
  );
}

const markWords = (mark: string): string => words.marked[mark] ?? mark;

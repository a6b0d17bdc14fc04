/** After how many days without a lesson records go; tried out before it is saved. */
import { useState } from "preact/hooks";
import { thePhone } from "../phone";
import { accessWords } from "../words.access";
import { Outcome, useDoing } from "./ask";
import { dayWords } from "./Exact";

const said = accessWords.club;
/** The server's own bounds, in days. */
const SHORTEST = 30;
const LONGEST = 36525;
const FIRST_OFFER = 730;

interface Due {
  fencer: string;
  nickname: string;
  last: string;
  events: number;
}

export function Retention({ days }: { days: number | null }) {
  const doing = useDoing();
  const [ends, setEnds] = useState(days !== null);
  const [text, setText] = useState(String(days ?? FIRST_OFFER));
  const [due, setDue] = useState<Due[] | null>(null);
  const number = Number(text);
  const good = Number.isInteger(number) && number >= SHORTEST && number <= LONGEST;
  const { api } = thePhone();
  const choose = (next: boolean) => {
    setEnds(next);
    setDue(null);
  };
  const look = () =>
    doing.attempt(async () => {
      setDue((await api.get<{ due: Due[] }>(`/api/club/retention?days=${number}`)).due);
    });
  const save = (event: SubmitEvent) => {
    event.preventDefault();
    void doing.attempt(async () => {
      await api.send("PATCH", "/api/club/settings", { retention_days: ends ? number : null });
      return ends ? said.savedDays(number) : said.savedNever;
    });
  };
  return (
    <section class="card" data-testid="retention">
      <h2>{said.retention}</h2>
      <form onSubmit={save}>
        <fieldset class="radios">
          <legend class="unseen">{said.retention}</legend>
          <Radio on={!ends} label={said.never} onPick={() => choose(false)} />
          <Radio on={ends} label={said.after} onPick={() => choose(true)} />
        </fieldset>
        {ends ? (
          <>
            <label class="number">
              <span>{said.days}</span>
              <input
                inputMode="numeric"
                value={text}
                aria-invalid={!good}
                aria-describedby="retention-about"
                data-testid="retention-days"
                onInput={(event) => {
                  setText(event.currentTarget.value);
                  setDue(null);
                }}
              />
              <small id="retention-about">
                {good ? said.about(number) : said.between(SHORTEST, LONGEST)}
              </small>
            </label>
            <button
              type="button"
              class="plain"
              data-testid="retention-look"
              disabled={!good || doing.busy}
              onClick={look}
            >
              {said.look}
            </button>
          </>
        ) : null}
        {due === null ? null : (
          <div data-testid="retention-due">
            <p>{due.length === 0 ? said.nobody : said.concerns(due.length)}</p>
            <ul class="plain-list">
              {due.map((one) => (
                <li key={one.fencer}>
                  <a href={`/fencers/${one.fencer}/record`}>{one.nickname}</a>,{" "}
                  {said.last(dayWords(one.last), one.events)}
                </li>
              ))}
            </ul>
          </div>
        )}
        <p class="soft">{said.nightly}</p>
        <button type="submit" class="strong" disabled={doing.busy || (ends && !good)}>
          {said.save}
        </button>
      </form>
      <Outcome of={doing} named="retention" />
    </section>
  );
}

const Radio = ({ on, label, onPick }: { on: boolean; label: string; onPick: () => void }) => (
  <label>
    <input type="radio" name="ends" checked={on} onChange={onPick} />
    <span>{label}</span>
  </label>
);

/** Goals by a competition: what has held, lessons left, when to re-check; and the season's page. */
import { useState } from "preact/hooks";
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { isObserver, waiting } from "../app/state";
import { useReply } from "../app/useReply";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { spoken } from "../language/guide";
import { _ } from "../language/i18n";
import { Outcome } from "../ui/Answer";
import { Confirm } from "../ui/Confirm";
import { Disclosure } from "../ui/Disclosure";

type Told = Replies["Goals"];
type Goal = Replies["Goal"];

export function Goals({ fencer }: { fencer: string }) {
  const path = `/api/fencers/${encodeURIComponent(fencer)}`;
  const [turn, setTurn] = useState(0);
  // a lesson that was sent meanwhile may have reached one
  const again = `${turn} ${waiting.value.mine === 0}`;
  const { data } = useReply<Told>(`goals:${fencer}`, `${path}/goals`, fencer, again);
  if (data === null) return null;
  const changed = () => setTurn(turn + 1);
  const coaches = !isObserver();
  return (
    <section class="card" data-testid="goals">
      <h2>{_("Goals and season")}</h2>
      {data.goals.length === 0 ? (
        <p>{_("No goal yet: a drill that is to be secure in two settings by a competition.")}</p>
      ) : null}
      {data.goals.map((one) => (
        <GoalPart key={one.drill.id} of={one} path={`${path}/goals`} changed={changed} />
      ))}
      {coaches ? (
        <>
          <Disclosure class="exact" summary={_("Set a goal")} data-testid="to-goal">
            {() => <SetGoal key={turn} path={`${path}/goals`} of={data} changed={changed} />}
          </Disclosure>
          <p>
            <a
              class="plain"
              href={`${path}/season?lang=${spoken()}`}
              target="_blank"
              rel="noreferrer"
              data-testid="to-season"
            >
              {_("Season page, to print")}
            </a>
          </p>
        </>
      ) : null}
    </section>
  );
}

interface PartProps {
  of: Goal;
  path: string;
  changed: () => void;
}

function GoalPart({ of, path, changed }: PartProps) {
  const doing = useDoing();
  const giveUp = () =>
    doing.attempt(async () => {
      await thePhone().api.send("DELETE", `${path}/${of.drill.id}`);
      changed();
    });
  return (
    <div data-testid={`goal-${of.drill.id}`}>
      <h3>{of.drill.name}</h3>
      <p>
        {of.words} {of.elsewhere}
      </p>
      {of.room === null ? null : <p>{of.room.words}</p>}
      {of.advice === null ? null : <p class="soft">{of.advice.words}</p>}
      {isObserver() ? null : (
        <Confirm
          named={`goal-drop-${of.drill.id}`}
          label={_("Give the goal up")}
          says={_("Only the goal goes. What has held stays as it is.")}
          yes={_("Yes, give it up")}
          busy={doing.busy}
          onYes={() => void giveUp()}
        />
      )}
      {doing.trouble ? <Outcome of={doing} named="goal" /> : null}
    </div>
  );
}

interface SetProps {
  path: string;
  of: Told;
  changed: () => void;
}

function SetGoal({ path, of, changed }: SetProps) {
  const doing = useDoing();
  const [drill, setDrill] = useState("");
  const [by, setBy] = useState(of.competitions[0]?.id ?? "");
  if (of.competitions.length === 0) {
    return (
      <p>
        {_("No competition ahead is noted yet.")}{" "}
        <a class="quiet" href="/club">
          {_("Note one on the page of the club")}
        </a>
      </p>
    );
  }
  const set = (event: SubmitEvent) => {
    event.preventDefault();
    void doing.attempt(async () => {
      await thePhone().api.send("PUT", `${path}/${drill}`, { competition: by });
      changed();
    });
  };
  return (
    <form onSubmit={set}>
      <label class="field">
        <span>{_("Drill that is to be secure in two settings")}</span>
        <select
          value={drill}
          data-testid="goal-drill"
          onChange={(event) => setDrill(event.currentTarget.value)}
        >
          <option value="">{_("Choose a drill")}</option>
          {of.open.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      <label class="field">
        <span>{_("By which competition")}</span>
        <select
          value={by}
          data-testid="goal-by"
          onChange={(event) => setBy(event.currentTarget.value)}
        >
          {of.competitions.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}, {dayWords(one.day)}
            </option>
          ))}
        </select>
      </label>
      <button
        type="submit"
        class="plain"
        disabled={drill === "" || doing.busy}
        data-testid="goal-set"
      >
        {_("Set the goal")}
      </button>
      <Outcome of={doing} named="goal" />
    </form>
  );
}

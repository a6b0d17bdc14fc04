/** The club's competitions: a name and a day each, and nothing of how anyone came out. */
import { useState } from "preact/hooks";
import { v7 as uuid7 } from "uuid";
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { isObserver } from "../app/state";
import { useReply } from "../app/useReply";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { localDay } from "../rules/days";
import { Outcome } from "../ui/Answer";
import { Confirm } from "../ui/Confirm";
import { Disclosure } from "../ui/Disclosure";

type Competition = Replies["Competition"];

const PATH = "/api/competitions";
/** As many characters as the server keeps. */
const LONGEST = 80;

export function Competitions() {
  const [turn, setTurn] = useState(0);
  const { data } = useReply<Replies["Competitions"]>("competitions", PATH, null, turn);
  const changed = () => setTurn(turn + 1);
  const today = localDay(new Date());
  const all = data?.competitions ?? [];
  const ahead = all.filter((one) => one.day >= today);
  const past = all.filter((one) => one.day < today).reverse();
  const rows = (some: Competition[]) => (
    <ol class="rows">
      {some.map((one) => (
        <Row key={one.id + one.name + one.day} of={one} changed={changed} />
      ))}
    </ol>
  );
  return (
    <section class="card" data-testid="competitions">
      <h2>{_("Competitions")}</h2>
      <p class="soft">
        {_("Goals are set by them on a fencer's page. No results are kept, and nobody is ranked.")}
      </p>
      {data !== null && ahead.length === 0 ? <p>{_("None ahead is noted yet.")}</p> : null}
      {rows(ahead)}
      {past.length === 0 ? null : (
        <Disclosure class="exact" summary={_("Those that are over")}>
          {() => rows(past)}
        </Disclosure>
      )}
      {isObserver() || data === null ? null : (
        <Disclosure class="exact" summary={_("Note a competition")} data-testid="competition-new">
          {() => <CompetitionForm key={turn} changed={changed} />}
        </Disclosure>
      )}
    </section>
  );
}

function Row({ of, changed }: { of: Competition; changed: () => void }) {
  const doing = useDoing();
  const remove = () =>
    doing.attempt(async () => {
      await thePhone().api.send("DELETE", `${PATH}/${of.id}`);
      changed();
    });
  return (
    <li data-testid={`competition-${of.id}`}>
      <span>
        {of.name} <small>{dayWords(of.day)}</small>
      </span>
      {isObserver() ? null : (
        <Disclosure
          class="exact"
          summary={
            <>
              {_("Change")}
              <span class="unseen">: {of.name}</span>
            </>
          }
        >
          {() => (
            <>
              <CompetitionForm of={of} changed={changed} />
              <Confirm
                named={`competition-remove-${of.id}`}
                label={_("Remove it")}
                says={_("It goes for good. It stays as long as a goal is set by it.")}
                yes={_("Yes, remove it")}
                busy={doing.busy}
                onYes={() => void remove()}
              />
              <Outcome of={doing} named={`competition-${of.id}`} />
            </>
          )}
        </Disclosure>
      )}
    </li>
  );
}

function CompetitionForm({ of, changed }: { of?: Competition; changed: () => void }) {
  const doing = useDoing();
  // sent again after a lost reply it is the same competition
  const [id] = useState(() => of?.id ?? uuid7());
  const [name, setName] = useState(of?.name ?? "");
  const [day, setDay] = useState(of?.day ?? "");
  const ready = name.trim() !== "" && day !== "";
  const save = (event: SubmitEvent) => {
    event.preventDefault();
    void doing.attempt(async () => {
      const { api } = thePhone();
      const body = { name: name.trim(), day };
      await (of === undefined
        ? api.send("POST", PATH, { id, ...body })
        : api.send("PATCH", `${PATH}/${id}`, body));
      changed();
    });
  };
  return (
    <form onSubmit={save}>
      <label class="field">
        <span>{_("Name of the competition")}</span>
        <input
          value={name}
          maxLength={LONGEST}
          data-testid="competition-name"
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <label class="field">
        <span>{_("Its day")}</span>
        <input
          type="date"
          value={day}
          data-testid="competition-day"
          onInput={(event) => setDay(event.currentTarget.value)}
        />
      </label>
      <button
        type="submit"
        class="plain"
        disabled={!ready || doing.busy}
        data-testid="competition-save"
      >
        {of === undefined ? _("Note it") : _("Save the change")}
      </button>
      <Outcome of={doing} named="competition" />
    </form>
  );
}

/** The club's coaches: roles, invitations, new passphrases, leaving. */
import { useState } from "preact/hooks";
import { thePhone } from "../phone";
import { PageHead } from "../SyncPill";
import { session } from "../state";
import { accessWords } from "../words.access";
import { Answer, moment, Outcome, useAsk, useDoing } from "./ask";
import { Choice } from "./Choice";
import { type OneTime, Shown } from "./Shown";
import { Sure } from "./Sure";

interface Person {
  id: string;
  name: string;
  role: string;
  active: boolean;
}

interface Invitation {
  id: string;
  role: string;
  by: string;
  expires: string;
}

type Made = OneTime & { id: string; expires: string };

const said = accessWords.people;

export function People() {
  const asked = useAsk<{ coaches: Person[] }>("/api/coaches");
  return (
    <main class="page" data-testid="people">
      <PageHead title={said.title} />
      <Answer of={asked}>
        {({ coaches }) => {
          const left = coaches.filter((one) => !one.active);
          return (
            <>
              <ul class="cards">
                {coaches
                  .filter((one) => one.active)
                  .map((one) => (
                    <PersonCard key={one.id} person={one} again={asked.again} />
                  ))}
              </ul>
              {left.length > 0 ? (
                <details class="card" data-testid="left">
                  <summary>{said.left(left.length)}</summary>
                  <ul class="rows">
                    {left.map((one) => (
                      <LeftRow key={one.id} person={one} again={asked.again} />
                    ))}
                  </ul>
                </details>
              ) : null}
              <Invitations />
            </>
          );
        }}
      </Answer>
    </main>
  );
}

interface RowProps {
  person: Person;
  again: () => Promise<void>;
}

const changed = (person: Person, body: { role?: string; active?: boolean }) =>
  thePhone().api.send("PATCH", `/api/coaches/${encodeURIComponent(person.id)}`, body);

function PersonCard({ person, again }: RowProps) {
  const doing = useDoing();
  const [made, setMade] = useState<Made | null>(null);
  const me = session.value?.coach.id === person.id;
  const change = (body: { role?: string; active?: boolean }) =>
    doing.attempt(async () => {
      await changed(person, body);
      await again();
      return accessWords.saved;
    });
  const newCode = () =>
    doing.attempt(async () => {
      const path = `/api/coaches/${encodeURIComponent(person.id)}/reset`;
      setMade(await thePhone().api.send<Made>("POST", path));
    });
  return (
    <li class="card" data-testid={`person-${person.name}`}>
      <header>
        <h2>{person.name}</h2>
        <span class="tag">{accessWords.roles[person.role]}</span>
        {me ? <span class="soft">{said.you}</span> : null}
      </header>
      <details>
        <summary>
          {accessWords.change}
          <span class="unseen">: {person.name}</span>
        </summary>
        <h3>{said.role}</h3>
        <Choice
          name="role"
          labels={accessWords.roles}
          value={person.role}
          onPick={(role) => void change({ role })}
        />
        <p class="soft">{accessWords.roleLeads[person.role]}</p>
        {me ? (
          <a class="quiet" href="/passphrase">
            {accessWords.places.passphrase}
          </a>
        ) : made ? (
          <>
            <h3>{said.resetFor(person.name)}</h3>
            <p>{said.resetLead}</p>
            <Shown of={made} lasts={accessWords.shown.until(moment(made.expires))} />
            <button type="button" class="plain" onClick={() => setMade(null)}>
              {accessWords.shown.done}
            </button>
          </>
        ) : (
          <div class="actions">
            <button
              type="button"
              class="plain"
              data-testid="reset-code"
              disabled={doing.busy}
              onClick={newCode}
            >
              {said.reset}
            </button>
            <Sure
              named="leave"
              label={said.leave}
              says={said.leaveSure(person.name)}
              yes={said.leaveYes(person.name)}
              busy={doing.busy}
              onYes={() => void change({ active: false })}
            />
          </div>
        )}
        <Outcome of={doing} named="person" />
      </details>
    </li>
  );
}

function LeftRow({ person, again }: RowProps) {
  const doing = useDoing();
  const back = () =>
    doing.attempt(async () => {
      await changed(person, { active: true });
      await again();
    });
  return (
    <li>
      <span>{person.name}</span>
      <button type="button" class="quiet" disabled={doing.busy} onClick={back}>
        {said.back}
        <span class="unseen">: {person.name}</span>
      </button>
      <Outcome of={doing} named="left" />
    </li>
  );
}

function Invitations() {
  const asked = useAsk<{ invitations: Invitation[] }>("/api/invitations");
  const doing = useDoing();
  const [role, setRole] = useState("coach");
  const [made, setMade] = useState<(Made & { role: string }) | null>(null);
  const { api } = thePhone();
  const make = () =>
    doing.attempt(async () => {
      const shown = await api.send<Made>("POST", "/api/invitations", { role });
      setMade({ ...shown, role });
      await asked.again();
    });
  const withdraw = (id: string) =>
    doing.attempt(async () => {
      await api.send("DELETE", `/api/invitations/${encodeURIComponent(id)}`);
      if (made?.id === id) setMade(null);
      await asked.again();
      return said.withdrawn;
    });
  const open = asked.data?.invitations ?? [];
  return (
    <section class="card" data-testid="invite">
      <h2>{said.invite}</h2>
      {made ? (
        <>
          <p>
            <b>{said.made(accessWords.roles[made.role] ?? made.role)}</b>
          </p>
          <p>{said.inviteLead}</p>
          <Shown of={made} lasts={accessWords.shown.until(moment(made.expires))} />
          <button type="button" class="plain" onClick={() => setMade(null)}>
            {accessWords.shown.done}
          </button>
        </>
      ) : (
        <>
          <h3>{said.inviteAs}</h3>
          <Choice name="invite" labels={accessWords.roles} value={role} onPick={setRole} />
          <p class="soft">{accessWords.roleLeads[role]}</p>
          <button
            type="button"
            class="strong"
            data-testid="invite-make"
            disabled={doing.busy}
            onClick={make}
          >
            {said.make}
          </button>
        </>
      )}
      <Outcome of={doing} named="invite" />
      {open.length > 0 ? (
        <details data-testid="invitations">
          <summary>{said.open(open.length)}</summary>
          <ul class="rows">
            {open.map((one) => {
              const what = said.openEntry(
                accessWords.roles[one.role] ?? one.role,
                one.by,
                moment(one.expires),
              );
              return (
                <li key={one.id}>
                  <span>{what}</span>
                  <button type="button" class="quiet" onClick={() => void withdraw(one.id)}>
                    {said.withdraw}
                    <span class="unseen">: {what}</span>
                  </button>
                </li>
              );
            })}
          </ul>
        </details>
      ) : null}
    </section>
  );
}

/** The club's coaches: roles, invitations, new passphrases, leaving. */
import { useState } from "preact/hooks";
import { useAsk, useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { session } from "../app/state";
import type { Replies } from "../device/api-types";
import { moment } from "../language/dates";
import { _, ngettext } from "../language/i18n";
import { Answer, Outcome } from "../ui/Answer";
import { Choice } from "../ui/Choice";
import { Confirm } from "../ui/Confirm";
import { PageHead } from "../ui/SyncPill";
import { OneTimeLink } from "./OneTimeLink";

const ROLES: Record<string, string> = {
  head: _("Head coach"),
  coach: _("Coach"),
  observer: _("Observer"),
};

const ROLE_LEADS: Record<string, string> = {
  head: _("Teaches, and looks after people, devices and records."),
  coach: _("Teaches: lessons, fencers, drills, progress links."),
  observer: _("Marks along in a lesson and looks; changes nothing of the club."),
};

type Person = Replies["Coach"];

type Made = Replies["NewCode"];

export function People() {
  const asked = useAsk<Replies["Coaches"]>("/api/coaches");
  return (
    <main class="page" data-testid="people">
      <PageHead title={_("People")} />
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
                  <summary>{ngettext("%(n)s has left", "%(n)s have left", left.length)}</summary>
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
      return _("Saved.");
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
        <span class="tag">{ROLES[person.role]}</span>
        {me ? <span class="soft">{_("you")}</span> : null}
      </header>
      <details>
        <summary>
          {_("Change")}
          <span class="unseen">: {person.name}</span>
        </summary>
        <h3>{_("Role")}</h3>
        <Choice
          name="role"
          labels={ROLES}
          value={person.role}
          onPick={(role) => void change({ role })}
        />
        <p class="soft">{ROLE_LEADS[person.role]}</p>
        {me ? (
          <a class="quiet" href="/passphrase">
            {_("Change my passphrase")}
          </a>
        ) : made ? (
          <>
            <h3>{_("New passphrase for %(name)s", { name: person.name })}</h3>
            <p>{_("Hand it to that person only: whoever has it can sign in as them.")}</p>
            <OneTimeLink
              of={made}
              lasts={_("Works once, until %(when)s.", { when: moment(made.expires) })}
            />
            <button type="button" class="plain" onClick={() => setMade(null)}>
              {_("Done")}
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
              {_("Code for a new passphrase")}
            </button>
            <Confirm
              named="leave"
              label={_("Has left the club")}
              says={_(
                "%(name)s is signed out everywhere at once and cannot sign in. What %(name)s has marked stays in the club; what is not sent yet stays on the device.",
                { name: person.name },
              )}
              yes={_("Yes, %(name)s has left", { name: person.name })}
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
        {_("Let in again")}
        <span class="unseen">: {person.name}</span>
      </button>
      <Outcome of={doing} named="left" />
    </li>
  );
}

function Invitations() {
  const asked = useAsk<Replies["Invitations"]>("/api/invitations");
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
      return _("The invitation is withdrawn: its link opens nothing any more.");
    });
  const open = asked.data?.invitations ?? [];
  return (
    <section class="card" data-testid="invite">
      <h2>{_("Invite someone")}</h2>
      {made ? (
        <>
          <p>
            <b>{_("Invitation: %(role)s", { role: ROLES[made.role] ?? made.role })}</b>
          </p>
          <p>{_("The link opens a page where the new person chooses a name and a passphrase.")}</p>
          <OneTimeLink
            of={made}
            lasts={_("Works once, until %(when)s.", { when: moment(made.expires) })}
          />
          <button type="button" class="plain" onClick={() => setMade(null)}>
            {_("Done")}
          </button>
        </>
      ) : (
        <>
          <h3>{_("As")}</h3>
          <Choice name="invite" labels={ROLES} value={role} onPick={setRole} />
          <p class="soft">{ROLE_LEADS[role]}</p>
          <button
            type="button"
            class="strong"
            data-testid="invite-make"
            disabled={doing.busy}
            onClick={make}
          >
            {_("Make an invitation")}
          </button>
        </>
      )}
      <Outcome of={doing} named="invite" />
      {open.length > 0 ? (
        <details data-testid="invitations">
          <summary>
            {ngettext("%(n)s invitation is open", "%(n)s invitations are open", open.length)}
          </summary>
          <ul class="rows">
            {open.map((one) => {
              const what = _("%(role)s, by %(by)s, until %(until)s", {
                role: ROLES[one.role] ?? one.role,
                by: one.by,
                until: moment(one.expires),
              });
              return (
                <li key={one.id}>
                  <span>{what}</span>
                  <button type="button" class="quiet" onClick={() => void withdraw(one.id)}>
                    {_("Withdraw")}
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

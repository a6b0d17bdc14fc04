/** Devices that are signed in: named, signed out. */
import { thePhone } from "../phone";
import { PageHead } from "../SyncPill";
import { club, session } from "../state";
import { accessWords } from "../words.access";
import { Answer, dayOf, Outcome, useAsk, useDoing } from "./ask";
import { type Device, titleOf } from "./device";
import { Pairing } from "./Pairing";
import { Sure } from "./Sure";

const said = accessWords.devices;

export function Devices() {
  const asked = useAsk<{ devices: Device[] }>("/api/devices");
  const me = session.value?.coach;
  return (
    <main class="page" data-testid="devices">
      <PageHead title={said.title} />
      <Answer of={asked}>
        {({ devices }) => (
          <>
            <Pairing devices={devices} again={asked.again} />
            <section class="card">
              <h2>{said.mine}</h2>
              <List
                named="my-devices"
                of={devices.filter((one) => one.coach === me?.id)}
                again={asked.again}
              />
            </section>
            {me?.role === "head" ? (
              <section class="card" data-testid="others-devices">
                <h2>{said.others}</h2>
                {devices.every((one) => one.coach === me.id) ? <p>{said.noOthers}</p> : null}
                <List
                  named="others-devices"
                  of={devices.filter((one) => one.coach !== me.id)}
                  again={asked.again}
                />
              </section>
            ) : null}
          </>
        )}
      </Answer>
    </main>
  );
}

interface ListProps {
  named: string;
  of: Device[];
  again: () => Promise<void>;
}

function List({ named, of, again }: ListProps) {
  const doing = useDoing();
  const path = (device: Device) => `/api/devices/${encodeURIComponent(device.id)}`;
  const rename = (device: Device, event: SubmitEvent) => {
    event.preventDefault();
    const name = String(new FormData(event.currentTarget as HTMLFormElement).get("name")).trim();
    void doing.attempt(async () => {
      await thePhone().api.send("PATCH", path(device), { name: name || null });
      await again();
      return accessWords.saved;
    });
  };
  const revoke = (device: Device) =>
    doing.attempt(async () => {
      await thePhone().api.send("DELETE", path(device));
      await again();
      return said.revoked(titleOf(device));
    });
  return (
    <>
      <ul class="rows">
        {of.map((device) => (
          <li key={device.id} data-testid={device.this ? "this-device" : "device"}>
            <details>
              <summary>
                {titleOf(device)} {device.this ? <span class="tag">{said.this}</span> : null}
                <small>{factsOf(device)}</small>
              </summary>
              <form onSubmit={(event) => rename(device, event)}>
                <label class="field">
                  <span>{said.name}</span>
                  <input name="name" maxLength={60} defaultValue={device.name ?? ""} />
                </label>
                <div class="actions">
                  <button type="submit" class="plain" disabled={doing.busy}>
                    {said.save}
                  </button>
                  {device.this ? null : (
                    <Sure
                      named="revoke"
                      label={said.revoke}
                      says={said.revokeSure}
                      yes={said.revokeYes}
                      busy={doing.busy}
                      onYes={() => void revoke(device)}
                    />
                  )}
                </div>
              </form>
              <p class="soft">
                {said.since(dayOf(device.first_seen))}
                {device.this ? ` ${said.here}` : ""}
              </p>
            </details>
          </li>
        ))}
      </ul>
      <Outcome of={doing} named={named} />
    </>
  );
}

/** Whose it is, where that is someone else, and when the server saw it last. */
function factsOf(device: Device): string {
  const mine = device.coach === session.value?.coach.id;
  const whose = club.value?.coaches.find((one) => one.id === device.coach)?.name;
  const day = dayOf(device.last_seen);
  const today = day === dayOf(new Date().toISOString());
  return [mine ? undefined : whose, said.seen(today ? said.today : day)]
    .filter(Boolean)
    .join(" · ");
}

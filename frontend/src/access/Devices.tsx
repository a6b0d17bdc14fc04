/** Signed-in devices: rename one, sign one out. */
import { useAsk, useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { club, session } from "../app/state";
import type { Replies } from "../device/api-types";
import { dayOf } from "../language/dates";
import { _ } from "../language/i18n";
import { Answer, Outcome } from "../ui/Answer";
import { Confirm } from "../ui/Confirm";
import { PageHead } from "../ui/SyncPill";
import { type Device, titleOf } from "./device";
import { Pairing } from "./Pairing";

export function Devices() {
  const asked = useAsk<Replies["Devices"]>("/api/devices");
  const me = session.value?.coach;
  return (
    <main class="page" data-testid="devices">
      <PageHead title={_("Devices")} />
      <Answer of={asked}>
        {({ devices }) => (
          <>
            <Pairing devices={devices} again={asked.again} />
            <section class="card">
              <h2>{_("My devices")}</h2>
              <List
                named="my-devices"
                of={devices.filter((one) => one.coach === me?.id)}
                again={asked.again}
              />
            </section>
            {me?.role === "head" ? (
              <section class="card" data-testid="others-devices">
                <h2>{_("Devices of the other coaches")}</h2>
                {devices.every((one) => one.coach === me.id) ? (
                  <p>{_("No other coach is signed in anywhere.")}</p>
                ) : null}
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
      return _("Saved.");
    });
  };
  const revoke = (device: Device) =>
    doing.attempt(async () => {
      await thePhone().api.send("DELETE", path(device));
      await again();
      return _("%(name)s is signed out.", { name: titleOf(device) });
    });
  return (
    <>
      <ul class="rows">
        {of.map((device) => (
          <li key={device.id} data-testid={device.this ? "this-device" : "device"}>
            <details>
              <summary>
                {titleOf(device)} {device.this ? <span class="tag">{_("this device")}</span> : null}
                <small>{factsOf(device)}</small>
              </summary>
              <form onSubmit={(event) => rename(device, event)}>
                <label class="field">
                  <span>{_("What you call it")}</span>
                  <input name="name" maxLength={60} defaultValue={device.name ?? ""} />
                </label>
                <div class="actions">
                  <button type="submit" class="plain" disabled={doing.busy}>
                    {_("Save the name")}
                  </button>
                  {device.this ? null : (
                    <Confirm
                      named="revoke"
                      label={_("Sign this device out")}
                      says={_(
                        "It is signed out at once. What it has not sent stays on it and is sent after the next sign-in there.",
                      )}
                      yes={_("Yes, sign it out")}
                      busy={doing.busy}
                      onYes={() => void revoke(device)}
                    />
                  )}
                </div>
              </form>
              <p class="soft">
                {_("First signed in %(day)s.", { day: dayOf(device.first_seen) })}
                {device.this ? ` ${_("To sign out here, go to Settings.")}` : ""}
              </p>
            </details>
          </li>
        ))}
      </ul>
      <Outcome of={doing} named={named} />
    </>
  );
}

/** Owner (unless oneself) and last contact. */
function factsOf(device: Device): string {
  const mine = device.coach === session.value?.coach.id;
  const whose = club.value?.coaches.find((one) => one.id === device.coach)?.name;
  const day = dayOf(device.last_seen);
  const today = day === dayOf(new Date().toISOString());
  return [mine ? undefined : whose, _("last seen %(day)s", { day: today ? _("today") : day })]
    .filter(Boolean)
    .join(" · ");
}

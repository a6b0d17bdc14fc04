/** Pair a phone: a one-time code that expires within minutes. */
import { useEffect, useRef, useState } from "preact/hooks";
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { _ } from "../language/i18n";
import { Outcome } from "../ui/Answer";
import { type Device, titleOf } from "./device";
import { type OneTime, OneTimeLink } from "./OneTimeLink";

/** Poll interval while waiting for the other device. */
const LOOK_SECONDS = 3;

interface Props {
  devices: Device[];
  again: () => Promise<void>;
}

export function Pairing({ devices, again }: Props) {
  const doing = useDoing();
  const [made, setMade] = useState<OneTime | null>(null);
  const [left, setLeft] = useState(0);
  const before = useRef(new Map<string, string>());
  const make = () =>
    doing.attempt(async () => {
      before.current = new Map(devices.map((one) => [one.id, one.last_seen]));
      const shown = await thePhone().api.send<OneTime>("POST", "/api/pairings");
      setMade(shown);
      setLeft(shown.seconds);
    });
  useEffect(() => {
    if (made === null) return;
    // counted from the reply: the device's clock may be wrong
    const until = performance.now() + made.seconds * 1000;
    let ticks = 0;
    const timer = setInterval(() => {
      const now = Math.max(0, Math.ceil((until - performance.now()) / 1000));
      setLeft(now);
      ticks += 1;
      if (now === 0) clearInterval(timer);
      else if (ticks % LOOK_SECONDS === 0) void again();
    }, 1000);
    return () => clearInterval(timer);
  }, [made]);
  const come =
    made === null
      ? undefined
      : devices.find((one) => !one.this && before.current.get(one.id) !== one.last_seen);
  useEffect(() => {
    if (come === undefined) return;
    setMade(null);
    void doing.attempt(async () => _("%(name)s is signed in now.", { name: titleOf(come) }));
  }, [come?.id]);
  return (
    <section class="card" data-testid="pairing">
      <h2>{_("Pair a phone")}</h2>
      {made === null ? (
        <>
          <p>{_("Signs you in on another phone or computer without typing your passphrase.")}</p>
          <button
            type="button"
            class="strong"
            data-testid="pair-make"
            disabled={doing.busy}
            onClick={make}
          >
            {_("Pair a phone")}
          </button>
        </>
      ) : (
        <>
          {left > 0 ? (
            <>
              <p>
                {_(
                  "Point the phone's camera at it, or type the code at “Sign in with a code” there.",
                )}
              </p>
              <OneTimeLink
                of={made}
                lasts={_("Works once, for another %(clock)s", { clock: clock(left) })}
              />
            </>
          ) : (
            <p role="alert" data-testid="pair-over">
              {_("This code has run out.")}
            </p>
          )}
          <div class="actions">
            <button
              type="button"
              class={left > 0 ? "plain" : "strong"}
              data-testid="pair-anew"
              disabled={doing.busy}
              onClick={make}
            >
              {_("Make a new one")}
            </button>
            <button type="button" class="quiet" onClick={() => setMade(null)}>
              {_("Hide the code")}
            </button>
          </div>
        </>
      )}
      <Outcome of={doing} named="pairing" />
    </section>
  );
}

/** Seconds as m:ss, e.g. 4:59. */
const clock = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;

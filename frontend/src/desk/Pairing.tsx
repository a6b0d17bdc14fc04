/** A phone signed in by a code that is good once and for a few minutes. */
import { useEffect, useRef, useState } from "preact/hooks";
import { thePhone } from "../phone";
import { accessWords } from "../words.access";
import { Outcome, useDoing } from "./ask";
import { type Device, titleOf } from "./device";
import { type OneTime, Shown } from "./Shown";

const said = accessWords.devices;
/** How often to look whether the other device has come. */
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
    // counted from the answer, so that a wrong clock does no harm
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
    void doing.attempt(async () => said.paired(titleOf(come)));
  }, [come?.id]);
  return (
    <section class="card" data-testid="pairing">
      <h2>{said.pair}</h2>
      {made === null ? (
        <>
          <p>{said.pairLead}</p>
          <button
            type="button"
            class="strong"
            data-testid="pair-make"
            disabled={doing.busy}
            onClick={make}
          >
            {said.pair}
          </button>
        </>
      ) : (
        <>
          {left > 0 ? (
            <>
              <p>{said.scan}</p>
              <Shown of={made} lasts={said.left(clock(left))} />
            </>
          ) : (
            <p role="alert" data-testid="pair-over">
              {said.over}
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
              {said.anew}
            </button>
            <button type="button" class="quiet" onClick={() => setMade(null)}>
              {said.stop}
            </button>
          </div>
        </>
      )}
      <Outcome of={doing} named="pairing" />
    </section>
  );
}

/** Seconds as minutes and seconds, e.g. 4:59. */
const clock = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;

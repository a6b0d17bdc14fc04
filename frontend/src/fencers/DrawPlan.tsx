/** Have a plan by chance drawn: choose drills and bout days, read what it can tell, draw. */
import { useState } from "preact/hooks";
import { v7 as uuid7 } from "uuid";
import { useAsk, useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { dayAfter, localDay } from "../rules/days";
import { Answer, Outcome } from "../ui/Answer";
import { Confirm } from "../ui/Confirm";

interface Props {
  path: string;
  of: Replies["Draws"];
  changed: () => void;
}

/** Bout days offered: one a week for a term. */
const DAYS = 14;
const EVERY = 7;
const whole = (text: string): number => (/^\d{1,3}$/.test(text) ? Number(text) : 0);

export function DrawPlan({ path, of, changed }: Props) {
  const doing = useDoing();
  // the server draws once for an id: sent again after a lost reply, it is the same plan
  const [id] = useState(() => uuid7());
  const [chosen, setChosen] = useState<string[]>([]);
  const [first, setFirst] = useState(localDay(new Date()));
  const [every, setEvery] = useState(String(EVERY));
  const [days, setDays] = useState(String(DAYS));
  const needs = of.needs[chosen.length];
  const [gap, count] = [whole(every), whole(days)];
  const ready = needs !== undefined && count >= needs && gap > 0 && first !== "";
  const draw = () =>
    doing.attempt(async () => {
      const body = { id, drills: chosen, first, every: gap, days: count };
      await thePhone().api.send("POST", path, body);
      changed();
    });
  const pick = (drill: string, on: boolean) =>
    setChosen(on ? [...chosen, drill] : chosen.filter((one) => one !== drill));
  return (
    <form data-testid="draw-form" onSubmit={(event) => event.preventDefault()}>
      <fieldset class="radios">
        <legend>{_("Three to five drills this fencer has not begun")}</legend>
        {of.open.map((drill) => (
          <label key={drill.id}>
            <input
              type="checkbox"
              checked={chosen.includes(drill.id)}
              data-testid={`draw-of-${drill.id}`}
              onChange={(event) => pick(drill.id, event.currentTarget.checked)}
            />
            {drill.name}
          </label>
        ))}
      </fieldset>
      <label class="field">
        <span>{_("First bout day that counts")}</span>
        <input
          type="date"
          value={first}
          data-testid="draw-first"
          onInput={(event) => setFirst(event.currentTarget.value)}
        />
      </label>
      <NumberField label={_("Bout days in all")} value={days} named="draw-days" onType={setDays} />
      <NumberField
        label={_("Days from one to the next")}
        value={every}
        named="draw-every"
        onType={setEvery}
      />
      {needs === undefined ? (
        <p class="soft">{_("Choose three to five drills.")}</p>
      ) : count < needs ? (
        <p class="trouble">
          {_(
            "So many drills need at least %(needs)s bout days: three before the first is begun, three after the last.",
            {
              needs,
            },
          )}
        </p>
      ) : null}
      {ready ? (
        <>
          <p>
            {_(
              "The last bout day is %(day)s. Have each drill's action watched on as many of these days as you can.",
              {
                day: dayWords(dayAfter(first, gap * (count - 1))),
              },
            )}
          </p>
          <Outlook path={`${path}/outlook?drills=${chosen.length}&days=${count}`} />
          <div class="actions">
            <Confirm
              named="draw"
              label={_("Draw the order")}
              says={_(
                "The order is drawn once, by chance, and stands: begin each drill when its turn has come, and none of them before.",
              )}
              yes={_("Yes, draw it")}
              busy={doing.busy}
              onYes={() => void draw()}
            />
          </div>
        </>
      ) : null}
      <Outcome of={doing} named="drawing" />
    </form>
  );
}

/** What such a plan can tell, before it is drawn. */
function Outlook({ path }: { path: string }) {
  const asked = useAsk<Replies["Claimed"]>(path);
  return (
    <div data-testid="draw-outlook">
      <Answer of={asked}>{(told) => <p>{told.words}</p>}</Answer>
    </div>
  );
}

interface NumberProps {
  label: string;
  value: string;
  named: string;
  onType: (text: string) => void;
}

const NumberField = ({ label, value, named, onType }: NumberProps) => (
  <label class="number">
    <span>{label}</span>
    <input
      inputMode="numeric"
      value={value}
      aria-invalid={whole(value) === 0}
      data-testid={named}
      onInput={(event) => onType(event.currentTarget.value)}
    />
  </label>
);

/** Retention period, with a dry run before it is saved. */
import { useState } from "preact/hooks";
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _, ngettext } from "../language/i18n";
import { Outcome } from "../ui/Answer";

/** Bounds in days; as in the API. */
const SHORTEST = 30;
const LONGEST = 36525;
const FIRST_OFFER = 730;

type Due = Replies["DueForErasure"];

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
      setDue((await api.get<Replies["Retention"]>(`/api/club/retention?days=${number}`)).due);
    });
  const save = (event: SubmitEvent) => {
    event.preventDefault();
    void doing.attempt(async () => {
      await api.send("PATCH", "/api/club/settings", { retention_days: ends ? number : null });
      return ends
        ? ngettext(
            "Saved: records go after %(n)s day without a lesson.",
            "Saved: records go after %(n)s days without a lesson.",
            number,
          )
        : _("Saved: nothing is erased by itself.");
    });
  };
  return (
    <section class="card" data-testid="retention">
      <h2>{_("How long records are kept")}</h2>
      <form onSubmit={save}>
        <fieldset class="radios">
          <legend class="unseen">{_("How long records are kept")}</legend>
          <Radio on={!ends} label={_("Until someone erases them")} onPick={() => choose(false)} />
          <Radio
            on={ends}
            label={_("Erase after a time without a lesson")}
            onPick={() => choose(true)}
          />
        </fieldset>
        {ends ? (
          <>
            <label class="number">
              <span>{_("Days without a lesson")}</span>
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
                {good
                  ? number < 365
                    ? ngettext(
                        "About %(n)s month.",
                        "About %(n)s months.",
                        Math.round(number / 30.44),
                      )
                    : ngettext(
                        "About %(n)s year.",
                        "About %(n)s years.",
                        Math.round(number / 36.525) / 10,
                      )
                  : _("Give a whole number of days from %(low)s to %(high)s.", {
                      low: SHORTEST,
                      high: LONGEST,
                    })}
              </small>
            </label>
            <button
              type="button"
              class="plain"
              data-testid="retention-look"
              disabled={!good || doing.busy}
              onClick={look}
            >
              {_("See whom it concerns today")}
            </button>
          </>
        ) : null}
        {due === null ? null : (
          <div data-testid="retention-due">
            <p>
              {due.length === 0
                ? _("Nobody today.")
                : ngettext(
                    "%(n)s fencer would be erased today:",
                    "%(n)s fencers would be erased today:",
                    due.length,
                  )}
            </p>
            <ul class="plain-list">
              {due.map((one) => (
                <li key={one.fencer}>
                  <a href={`/fencers/${one.fencer}/record`}>{one.nickname}</a>,{" "}
                  {ngettext(
                    "last lesson %(day)s, %(n)s mark or note",
                    "last lesson %(day)s, %(n)s marks and notes",
                    one.events,
                    {
                      day: dayWords(one.last),
                    },
                  )}
                </li>
              ))}
            </ul>
          </div>
        )}
        <p class="soft">
          {_(
            "Saving erases nothing. The server's nightly run does: “cueladder retention --apply”, which whoever looks after the server sets up.",
          )}
        </p>
        <button type="submit" class="strong" disabled={doing.busy || (ends && !good)}>
          {_("Save")}
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

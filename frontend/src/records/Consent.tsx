/** Day of consent to keeping the records. */
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { localDay } from "../rules/days";
import { Outcome } from "../ui/Answer";

interface Props {
  path: string;
  day: string | null;
  again: () => Promise<void>;
}

export function Consent({ path, day, again }: Props) {
  const doing = useDoing();
  const put = (consent: string | null) =>
    doing.attempt(async () => {
      const { api, queue } = thePhone();
      await api.send("PATCH", path, { consent });
      await again();
      // refresh the phone's copy of the club
      void queue.kick("all");
      return consent === null
        ? _("Noted: there is no consent any more. Whether to erase the records is up to you.")
        : _("Saved.");
    });
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    void put(String(new FormData(event.currentTarget as HTMLFormElement).get("day")));
  };
  return (
    <section class="card" data-testid="consent">
      <h2>{_("Consent")}</h2>
      <p class="soft">{_("That these records are kept; for a minor, the guardian's.")}</p>
      <p data-testid="consent-day">
        <b>
          {day === null
            ? _("No consent is noted.")
            : _("Given on %(day)s.", { day: dayWords(day) })}
        </b>
      </p>
      <form onSubmit={submit} key={day}>
        <label class="field">
          <span>{_("Day it was given")}</span>
          <input
            type="date"
            name="day"
            required
            max={localDay(new Date())}
            defaultValue={day ?? ""}
          />
        </label>
        <div class="actions">
          <button type="submit" class="plain" disabled={doing.busy}>
            {_("Save the day")}
          </button>
          {day === null ? null : (
            <button
              type="button"
              class="quiet"
              disabled={doing.busy}
              onClick={() => void put(null)}
            >
              {_("Withdraw it")}
            </button>
          )}
        </div>
      </form>
      <Outcome of={doing} named="consent" />
    </section>
  );
}

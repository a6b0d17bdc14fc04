/** Consent to keeping the records, with its day. */
import { localDay } from "../device/ledger";
import { thePhone } from "../phone";
import { accessWords } from "../words.access";
import { Outcome, useDoing } from "./ask";
import { dayWords } from "./Exact";

const said = accessWords.record;

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
      // the club's list on this phone carries it too
      void queue.kick("all");
      return consent === null ? said.consentTaken : accessWords.saved;
    });
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    void put(String(new FormData(event.currentTarget as HTMLFormElement).get("day")));
  };
  return (
    <section class="card" data-testid="consent">
      <h2>{said.consent}</h2>
      <p class="soft">{said.consentLead}</p>
      <p data-testid="consent-day">
        <b>{day === null ? said.noConsent : said.consentOn(dayWords(day))}</b>
      </p>
      <form onSubmit={submit} key={day}>
        <label class="field">
          <span>{said.consentDay}</span>
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
            {said.consentSave}
          </button>
          {day === null ? null : (
            <button
              type="button"
              class="quiet"
              disabled={doing.busy}
              onClick={() => void put(null)}
            >
              {said.consentNone}
            </button>
          )}
        </div>
      </form>
      <Outcome of={doing} named="consent" />
    </section>
  );
}

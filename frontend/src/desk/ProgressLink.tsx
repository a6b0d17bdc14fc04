/** Links to the progress page: make one, copy it, close them all. */
import { useEffect, useRef, useState } from "preact/hooks";
import { NoAnswer } from "../device/api";
import { thePhone } from "../phone";
import { accessWords } from "../words.access";
import { deskWords } from "../words.desk";
import { dayWords } from "./Exact";

interface Made {
  url: string;
  expires: string;
}

interface OpenLink {
  id: string;
  created: string;
  expires: string;
  opened: string | null;
}

const said = deskWords.link;
const DAYS = [30, 90, 180, 366] as const;

export function ProgressLink({ fencer }: { fencer: string }) {
  const [links, setLinks] = useState<OpenLink[] | null>(null);
  const [made, setMade] = useState<Made | null>(null);
  const [told, setTold] = useState("");
  const [asked, setAsked] = useState(false);
  const [days, setDays] = useState<number>(DAYS[1]);
  const field = useRef<HTMLInputElement>(null);
  const path = `/api/fencers/${encodeURIComponent(fencer)}/links`;
  const { api } = thePhone();
  const attempt = async (work: () => Promise<void>) => {
    setTold("");
    try {
      await work();
      setLinks((await api.get<{ links: OpenLink[] }>(path)).links);
    } catch (error) {
      setTold(error instanceof NoAnswer ? said.away : (error as Error).message);
    }
  };
  useEffect(() => {
    void attempt(async () => undefined);
  }, [path]);
  const make = () => attempt(async () => setMade(await api.send<Made>("POST", path, { days })));
  const closeOne = (id: string) =>
    attempt(async () => {
      await api.send("DELETE", `${path}/${id}`);
      setMade(null);
      setTold(accessWords.link.closed);
    });
  const revoke = () =>
    attempt(async () => {
      setAsked(false);
      await api.send("DELETE", path);
      setMade(null);
      setTold(said.revoked);
    });
  const copy = async () => {
    field.current?.select();
    try {
      await navigator.clipboard.writeText(made?.url ?? "");
      setTold(said.copied);
    } catch {
      setTold(said.select);
    }
  };
  return (
    <section class="card" data-testid="progress-link">
      <h2>{said.title}</h2>
      <p class="soft">{said.lead}</p>
      {made ? (
        <>
          <label class="field">
            <span>{said.address}</span>
            <input ref={field} readOnly value={made.url} data-testid="link-address" />
          </label>
          <p class="soft">{said.until(dayWords(made.expires))}</p>
        </>
      ) : null}
      <label class="field">
        <span>{accessWords.link.days}</span>
        <select
          data-testid="link-days"
          value={days}
          onChange={(event) => setDays(Number(event.currentTarget.value))}
        >
          {DAYS.map((one) => (
            <option key={one} value={one}>
              {accessWords.link.forDays(one)}
            </option>
          ))}
        </select>
      </label>
      <div class="actions">
        {made ? (
          <button type="button" class="strong" data-testid="link-copy" onClick={copy}>
            {said.copy}
          </button>
        ) : null}
        <button type="button" class="plain" data-testid="link-make" onClick={make}>
          {said.make}
        </button>
        {links && links.length > 0 && !asked ? (
          <button
            type="button"
            class="quiet"
            data-testid="link-revoke"
            onClick={() => setAsked(true)}
          >
            {said.revoke}
          </button>
        ) : null}
      </div>
      {asked ? (
        <p class="trouble">
          {said.sure}{" "}
          <button type="button" class="quiet" data-testid="link-revoke-yes" onClick={revoke}>
            {said.yes}
          </button>
        </p>
      ) : null}
      <p role="status" data-testid="link-told">
        {told}
      </p>
      {links === null ? null : (
        <details>
          <summary>{said.open(links.length)}</summary>
          <ul class="rows">
            {links.map((one) => (
              <li key={one.id}>
                <span>
                  {said.entry(
                    dayWords(one.created),
                    dayWords(one.expires),
                    one.opened === null ? null : dayWords(one.opened),
                  )}
                </span>
                <button
                  type="button"
                  class="quiet"
                  aria-label={accessWords.link.closeOne(dayWords(one.created))}
                  onClick={() => closeOne(one.id)}
                >
                  {accessWords.link.close}
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

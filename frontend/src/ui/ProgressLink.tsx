/** Links to the progress page: create, copy, revoke. */
import { useEffect, useRef, useState } from "preact/hooks";
import { thePhone } from "../app/phone";
import { NoAnswer } from "../device/api";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _, ngettext } from "../language/i18n";

type Made = Replies["NewLink"];

type OpenLink = Replies["Link"];

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
      setLinks((await api.get<Replies["Links"]>(path)).links);
    } catch (error) {
      setTold(
        error instanceof NoAnswer
          ? _("The server does not answer: links are made with a connection.")
          : (error as Error).message,
      );
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
      setTold(_("The link is closed."));
    });
  const revoke = () =>
    attempt(async () => {
      setAsked(false);
      await api.send("DELETE", path);
      setMade(null);
      setTold(_("All links are closed."));
    });
  const copy = async () => {
    field.current?.select();
    try {
      await navigator.clipboard.writeText(made?.url ?? "");
      setTold(_("Copied."));
    } catch {
      setTold(_("The link is selected: copy it by hand."));
    }
  };
  return (
    <section class="card" data-testid="progress-link">
      <h2>{_("Progress page for fencer and parents")}</h2>
      <p class="soft">
        {_("A link opens the fencer's progress page without signing in. It compares with no one.")}
      </p>
      {made ? (
        <>
          <label class="field">
            <span>{_("The link, shown only this once")}</span>
            <input ref={field} readOnly value={made.url} data-testid="link-address" />
          </label>
          <p class="soft">{_("Opens until %(day)s.", { day: dayWords(made.expires) })}</p>
        </>
      ) : null}
      <label class="field">
        <span>{_("Opens for")}</span>
        <select
          data-testid="link-days"
          value={days}
          onChange={(event) => setDays(Number(event.currentTarget.value))}
        >
          {DAYS.map((one) => (
            <option key={one} value={one}>
              {ngettext("%(n)s day", "%(n)s days", one)}
            </option>
          ))}
        </select>
      </label>
      <div class="actions">
        {made ? (
          <button type="button" class="strong" data-testid="link-copy" onClick={copy}>
            {_("Copy the link")}
          </button>
        ) : null}
        <button type="button" class="plain" data-testid="link-make" onClick={make}>
          {_("Make a new link")}
        </button>
        {links && links.length > 0 && !asked ? (
          <button
            type="button"
            class="quiet"
            data-testid="link-revoke"
            onClick={() => setAsked(true)}
          >
            {_("Close all links")}
          </button>
        ) : null}
      </div>
      {asked ? (
        <p class="trouble">
          {_("Close them all? Whoever has one can no longer open it.")}{" "}
          <button type="button" class="quiet" data-testid="link-revoke-yes" onClick={revoke}>
            {_("Yes, close them")}
          </button>
        </p>
      ) : null}
      <p role="status" data-testid="link-told">
        {told}
      </p>
      {links === null ? null : (
        <details>
          <summary>
            {links.length === 0
              ? _("No link opens just now.")
              : ngettext("%(n)s link opens just now.", "%(n)s links open just now.", links.length)}
          </summary>
          <ul class="rows">
            {links.map((one) => (
              <li key={one.id}>
                <span>
                  {one.opened === null
                    ? _("Made %(made)s, opens until %(until)s, not opened yet", {
                        made: dayWords(one.created),
                        until: dayWords(one.expires),
                      })
                    : _("Made %(made)s, opens until %(until)s, last opened %(opened)s", {
                        made: dayWords(one.created),
                        until: dayWords(one.expires),
                        opened: dayWords(one.opened),
                      })}
                </span>
                <button
                  type="button"
                  class="quiet"
                  aria-label={_("Close the link made %(made)s", { made: dayWords(one.created) })}
                  onClick={() => closeOne(one.id)}
                >
                  {_("Close")}
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

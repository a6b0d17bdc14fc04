/** Sync indicator: the number of unsent entries, on every screen. */
import { refused, session, sync, unsent } from "../app/state";
import { _, ngettext } from "../language/i18n";
import { FixedWidth } from "./FixedWidth";

/** Page title with the sync indicator. */
export const PageHead = ({ title }: { title: string }) => (
  <header class="head">
    <h1>{title}</h1>
    {session.value === null ? null : <SyncPill />}
  </header>
);

/** @param short show only the number and a shape; the text is left to screen readers */
export function SyncPill({ short = false }: { short?: boolean }) {
  const count = unsent.value;
  const no = refused.value;
  const { state } = sync.value;
  const signin = session.value !== null && (state === "signin" || state === "other");
  const text =
    signin && count > 0
      ? _("Sign in to send")
      : count > 0
        ? ngettext("%(n)s not sent", "%(n)s not sent", count)
        : no > 0
          ? ngettext("%(n)s refused", "%(n)s refused", no)
          : _("All sent");
  return (
    <a
      class="pill"
      href="/settings"
      data-testid="sync"
      aria-label={short ? text : undefined}
      data-unsent={count}
      data-state={count === 0 && no === 0 ? "clear" : "waiting"}
    >
      {short ? null : <span>{text}</span>}
      {short || (signin && count > 0) ? (
        <b>
          <FixedWidth text={String(count + no || "")} />
        </b>
      ) : null}
    </a>
  );
}

/** How many entries are not at the server yet: on every screen, always. */
import { Steady } from "./Steady";
import { refused, session, sync, unsent } from "./state";
import { words } from "./words";

/** A screen's title, with the count beside it. */
export const PageHead = ({ title }: { title: string }) => (
  <header class="head">
    <h1>{title}</h1>
    {session.value === null ? null : <SyncPill />}
  </header>
);

/** With `short` the words are for the ear only, where there is room for a number and a shape. */
export function SyncPill({ short = false }: { short?: boolean }) {
  const count = unsent.value;
  const no = refused.value;
  const { state } = sync.value;
  const signin = session.value !== null && (state === "signin" || state === "other");
  const text =
    signin && count > 0
      ? words.sync.signin
      : count > 0
        ? words.sync.waiting(count)
        : no > 0
          ? words.sync.refusedShort(no)
          : words.sync.done;
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
          <Steady text={String(count + no || "")} />
        </b>
      ) : null}
    </a>
  );
}

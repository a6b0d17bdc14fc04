/** How many entries are not at the server yet: on every screen, always. */
import { session, sync, unsent, waiting } from "./state";
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
  const { state } = sync.value;
  const refused = waiting.value.refused;
  const signin = session.value !== null && (state === "signin" || state === "other");
  const text =
    signin && count > 0
      ? words.sync.signin
      : count > 0
        ? words.sync.waiting(count)
        : refused > 0
          ? words.sync.refusedShort(refused)
          : words.sync.done;
  return (
    <a
      class="pill"
      href="/settings"
      data-testid="sync"
      data-unsent={count}
      data-state={count === 0 && refused === 0 ? "clear" : "waiting"}
    >
      <span class={short ? "unseen" : ""}>{text}</span>
      {short || (signin && count > 0) ? <b>{count + refused || ""}</b> : null}
    </a>
  );
}

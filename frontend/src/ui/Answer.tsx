/** Renders requests: pending, failed or answered. */
import type { ComponentChildren } from "preact";
import type { Asked, Doing, Trouble } from "../app/ask";
import { _ } from "../language/i18n";

/** Result of an action, in a live region. */
export const Outcome = ({ of, named }: { of: Doing; named: string }) => (
  <>
    <p role="status" data-testid={`${named}-told`}>
      {of.told}
    </p>
    {of.trouble ? <TroubleText of={of.trouble} /> : null}
  </>
);

export const TroubleText = ({ of }: { of: Trouble }) => (
  <div class="trouble" role="alert">
    <p>{[of.text, ...Object.values(of.fields)].join(" ")}</p>
    {of.status === 401 ? (
      <a class="quiet" href="/settings">
        {_("Sign in again")}
      </a>
    ) : null}
  </div>
);

/** Renders its children once the reply is here; before that, a pending or error state. */
export function Answer<T>({
  of,
  children,
}: {
  of: Asked<T>;
  children: (data: T) => ComponentChildren;
}) {
  return (
    <>
      {of.trouble ? (
        <div class="card" data-testid="no-answer">
          <TroubleText of={of.trouble} />
          {of.trouble.status === 401 || of.trouble.status === 403 ? null : (
            <button type="button" class="plain" onClick={() => void of.again()}>
              {_("Try again")}
            </button>
          )}
        </div>
      ) : of.data === null ? (
        <p class="soft">{_("Asking the server …")}</p>
      ) : null}
      {of.data === null ? null : children(of.data)}
    </>
  );
}

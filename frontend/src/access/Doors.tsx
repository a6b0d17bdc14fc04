/** Landing pages of one-time links: set-up, invitation, passphrase reset, pairing. */

import { useEffect, useState } from "preact/hooks";
import { thePhone } from "../app/phone";
import type { Replies } from "../device/api-types";
import { _ } from "../language/i18n";
import { CodeForm } from "./CodeForm";

const SETUP = {
  title: _("Set up the club"),
  lead: _(
    "For the first head coach. The code is printed by “cueladder setup” on the server; it works once, for a day.",
  ),
  go: _("Set up and sign in"),
  wrong: _(
    "This code does not work: it is mistyped, used, or older than a day. Look at it again letter by letter, or run “cueladder setup” on the server for a new one.",
  ),
  there: _("There is a club on this server already. Its head coach invites everyone else."),
  toJoin: _("I have an invitation"),
};

const JOIN = {
  title: _("Join the club"),
  lead: _("With the code of your invitation. It works once, for two days."),
  go: _("Join and sign in"),
  wrong: _(
    "This code does not work: it is mistyped, used, or older than two days. Look at it again letter by letter, or ask your head coach for a new invitation.",
  ),
};

const RESET = {
  title: _("New passphrase"),
  lead: _("With a code of your head coach. It works once, for an hour."),
  go: _("Set it and sign in"),
  wrong: _(
    "This code does not work: it is mistyped, used, or older than an hour. Look at it again letter by letter, or ask your head coach for a new one.",
  ),
  ends: _("Your other devices are signed out; what they have not sent stays on them."),
};

const PAIR = {
  title: _("Sign in with a code"),
  lead: _("From a device of yours that is signed in: Settings, Devices, “Pair a phone”."),
  go: _("Sign in here"),
  wrong: _(
    "This code does not work: it is mistyped, used, or older than five minutes. Show a new one on your other device.",
  ),
};

export function Setup() {
  const [needed, setNeeded] = useState(true);
  useEffect(() => {
    // without a reply the form stays; submitting it will report that the server is away
    thePhone()
      .api.get<Replies["SetupState"]>("/api/setup")
      .then((state) => setNeeded(state.needed), console.warn);
  }, []);
  if (!needed) {
    return (
      <main class="page narrow" data-testid="set-up-already">
        <h1>{_("Set up the club")}</h1>
        <p class="lead">
          {_("There is a club on this server already. Its head coach invites everyone else.")}
        </p>
        <div class="actions">
          <a class="plain" href="/join">
            {_("I have an invitation")}
          </a>
          <a class="plain" href="/">
            {_("To signing in")}
          </a>
        </div>
      </main>
    );
  }
  return (
    <CodeForm
      named="setup"
      says={SETUP}
      path="/api/setup"
      fields={["club", "name"]}
      passphrase={_("Passphrase")}
    />
  );
}

export const Join = () => (
  <CodeForm
    named="join"
    says={JOIN}
    path="/api/session/join"
    fields={["name"]}
    passphrase={_("Passphrase")}
  />
);

export const Reset = () => (
  <CodeForm
    named="reset"
    says={RESET}
    path="/api/session/reset"
    fields={[]}
    passphrase={_("New passphrase")}
    note={_("Your other devices are signed out; what they have not sent stays on them.")}
  />
);

export const Pair = () => (
  <CodeForm named="pair" says={PAIR} path="/api/session/pair" fields={[]} atOnce />
);

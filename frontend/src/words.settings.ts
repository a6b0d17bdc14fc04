/** The sentences about sending, storage and versions that Settings has. */
import { _, ngettext } from "./i18n";

export const settingWords = {
  sync: {
    sending: _("Sending…"),
    other: (name: string) => _("Signed in as %(name)s: sign in as yourself to send", { name }),
    away: _("No answer from the server. Everything is kept here."),
    trouble: (detail: string) => _("The server could not take it: %(detail)s", { detail }),
    others: (n: number) =>
      ngettext(
        "%(n)s entry of another coach waits for their sign-in.",
        "%(n)s entries of another coach wait for their sign-in.",
        n,
      ),
    refused: (n: number) =>
      ngettext(
        "%(n)s entry was refused by the server",
        "%(n)s entries were refused by the server",
        n,
      ),
    answered: (when: string) => _("Last answer from the server: %(when)s", { when }),
    never: _("No answer from the server yet."),
    now: _("Send now"),
    file: _("Save a file of what is not sent"),
    fileName: (day: string) => `cue-ladder-unsent-${day}.json`,
    title: _("Sending"),
  },
  storage: {
    persisted: _("The browser has promised to keep this phone's data."),
    notPersisted: _(
      "The browser may clear data when space is short. Installing the app on the home screen helps.",
    ),
  },
  version: (build: string) => _("Version of %(build)s", { build: build.replace("T", " ") }),
};

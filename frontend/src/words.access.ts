/** The sentences about people, devices and records. */
import { _, ngettext } from "./i18n";

/** A word of the server's in the coach's language; itself where it is not known. */
const named =
  (texts: Record<string, string>) =>
  (word: string): string =>
    texts[word] ?? word;

export const accessWords = {
  asking: _("Asking the server …"),
  away: _("The server does not answer. This page needs a connection; lessons go on without one."),
  ended: _("Your sign-in on this device has ended. Nothing is lost: what is not sent stays here."),
  signIn: _("Sign in again"),
  again: _("Try again"),
  headsOnly: _("This page is for the head coach."),
  gone: _("This is not in the club any more. Go back and look again."),
  saved: _("Saved."),
  change: _("Change"),
  sure: _("Are you sure?"),
  keep: _("No, go back"),

  roles: {
    head: _("Head coach"),
    coach: _("Coach"),
    observer: _("Observer"),
  } as Record<string, string>,
  roleLeads: {
    head: _("Teaches, and looks after people, devices and records."),
    coach: _("Teaches: lessons, fencers, drills, progress links."),
    observer: _("Marks along in a lesson and looks; changes nothing of the club."),
  } as Record<string, string>,

  places: {
    title: _("Club"),
    people: _("People"),
    devices: _("Devices, and pairing a phone"),
    records: _("Records of the club"),
    passphrase: _("Change my passphrase"),
  },

  code: {
    code: _("One-time code"),
    codeHint: _("Capitals, spaces and dashes do not matter."),
    club: _("Name of the club"),
    name: _("Your name"),
    nameHint: _("You sign in with it."),
    passphrase: _("Passphrase"),
    newPassphrase: _("New passphrase"),
    passphraseHint: _("At least 10 characters. A short sentence is easy to keep in mind."),
    show: _("Show it"),
    going: _("One moment …"),
    away: _("The server did not answer. This needs a connection once."),
    other: (name: string) =>
      _("%(name)s is signed in on this device. That ends here; what %(name)s has not sent stays.", {
        name,
      }),
    toSignIn: _("To signing in"),
  },
  setup: {
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
  },
  join: {
    title: _("Join the club"),
    lead: _("With the code of your invitation. It works once, for two days."),
    go: _("Join and sign in"),
    wrong: _(
      "This code does not work: it is mistyped, used, or older than two days. Look at it again letter by letter, or ask your head coach for a new invitation.",
    ),
  },
  reset: {
    title: _("New passphrase"),
    lead: _("With a code of your head coach. It works once, for an hour."),
    go: _("Set it and sign in"),
    wrong: _(
      "This code does not work: it is mistyped, used, or older than an hour. Look at it again letter by letter, or ask your head coach for a new one.",
    ),
    ends: _("Your other devices are signed out; what they have not sent stays on them."),
  },
  pair: {
    title: _("Sign in with a code"),
    lead: _("From a device of yours that is signed in: Settings, Devices, “Pair a phone”."),
    go: _("Sign in here"),
    wrong: _(
      "This code does not work: it is mistyped, used, or older than five minutes. Show a new one on your other device.",
    ),
  },

  shown: {
    once: _("Shown this once: it is not kept anywhere in clear."),
    address: _("The link"),
    copy: _("Copy the link"),
    copied: _("Copied."),
    select: _("The link is marked: copy it by hand."),
    picture: _("QR code of the link"),
    until: (when: string) => _("Works once, until %(when)s.", { when }),
    localOnly: _(
      "This link works on this computer only. To reach other devices, open Cue Ladder here at the address they use, then make it anew.",
    ),
    done: _("Done"),
  },

  people: {
    title: _("People"),
    you: _("you"),
    role: _("Role"),
    reset: _("Code for a new passphrase"),
    resetFor: (name: string) => _("New passphrase for %(name)s", { name }),
    resetLead: _("Hand it to that person only: whoever has it can sign in as them."),
    leave: _("Has left the club"),
    leaveSure: (name: string) =>
      _(
        "%(name)s is signed out everywhere at once and cannot sign in. What %(name)s has marked stays in the club; what is not sent yet stays on the device.",
        { name },
      ),
    leaveYes: (name: string) => _("Yes, %(name)s has left", { name }),
    back: _("Let in again"),
    left: (n: number) => ngettext("%(n)s has left", "%(n)s have left", n),
    invite: _("Invite someone"),
    inviteLead: _("The link opens a page where the new person chooses a name and a passphrase."),
    inviteAs: _("As"),
    make: _("Make an invitation"),
    made: (role: string) => _("Invitation: %(role)s", { role }),
    open: (n: number) => ngettext("%(n)s invitation is open", "%(n)s invitations are open", n),
    openEntry: (role: string, by: string, until: string) =>
      _("%(role)s, by %(by)s, until %(until)s", { role, by, until }),
    withdraw: _("Withdraw"),
    withdrawn: _("The invitation is withdrawn: its link opens nothing any more."),
  },

  passphrase: {
    title: _("Change my passphrase"),
    old: _("The passphrase you have now"),
    go: _("Change it"),
    done: _("Your passphrase is changed. Your other devices are signed out."),
  },

  devices: {
    title: _("Devices"),
    mine: _("My devices"),
    others: _("Devices of the other coaches"),
    noOthers: _("No other coach is signed in anywhere."),
    this: _("this device"),
    seen: (day: string) => _("last seen %(day)s", { day }),
    today: _("today"),
    since: (day: string) => _("First signed in %(day)s.", { day }),
    name: _("What you call it"),
    save: _("Save the name"),
    revoke: _("Sign this device out"),
    revokeSure: _(
      "It is signed out at once. What it has not sent stays on it and is sent after the next sign-in there.",
    ),
    revokeYes: _("Yes, sign it out"),
    revoked: (name: string) => _("%(name)s is signed out.", { name }),
    here: _("To sign out here, go to Settings."),
    unknown: _("A device"),
    browserOn: (browser: string, system: string) =>
      _("%(browser)s on %(system)s", { browser, system }),
    pair: _("Pair a phone"),
    pairLead: _("Signs you in on another phone or computer without typing your passphrase."),
    scan: _("Point the phone's camera at it, or type the code at “Sign in with a code” there."),
    left: (clock: string) => _("Works once, for another %(clock)s", { clock }),
    over: _("This code has run out."),
    anew: _("Make a new one"),
    stop: _("Hide the code"),
    paired: (name: string) => _("%(name)s is signed in now.", { name }),
  },

  record: {
    title: (name: string) => _("Records of %(name)s", { name }),
    open: _("Consent, export, erasing"),
    toFencer: _("Back to the fencer"),
    consent: _("Consent"),
    consentLead: _("That these records are kept; for a minor, the guardian's."),
    consentOn: (day: string) => _("Given on %(day)s.", { day }),
    noConsent: _("No consent is noted."),
    consentDay: _("Day it was given"),
    consentSave: _("Save the day"),
    consentNone: _("Withdraw it"),
    consentTaken: _(
      "Noted: there is no consent any more. Whether to erase the records is up to you.",
    ),
    kept: _("What is kept"),
    keptSince: (day: string) => _("Since %(day)s:", { day }),
    tables: {
      fencer: (_n: number) =>
        _("nickname, year of birth, weapon, hand, days of joining and of consent, note"),
      lessons: (n: number) => ngettext("%(n)s lesson", "%(n)s lessons", n),
      events: (n: number) => ngettext("%(n)s mark or note", "%(n)s marks and notes", n),
      lesson_drills: (n: number) =>
        ngettext("%(n)s result of a drill in a lesson", "%(n)s results of drills in lessons", n),
      standings: (n: number) =>
        ngettext(
          "where the fencer stands on %(n)s drill",
          "where the fencer stands on %(n)s drills",
          n,
        ),
      bookings: (n: number) => ngettext("%(n)s planned lesson", "%(n)s planned lessons", n),
      practice: (n: number) =>
        ngettext("%(n)s tick for practice at home", "%(n)s ticks for practice at home", n),
      links: (n: number) =>
        ngettext("%(n)s link to the progress page", "%(n)s links to the progress page", n),
      changes: (n: number) =>
        ngettext("%(n)s earlier value of a field", "%(n)s earlier values of fields", n),
      audit: (n: number) =>
        ngettext(
          "%(n)s line on who looked and changed",
          "%(n)s lines on who looked and changed",
          n,
        ),
    } as Record<string, (n: number) => string>,
    save: _("Save all of it as a file"),
    saving: _("Fetching …"),
    saveLead: _(
      "A zip with tables and an explanation of every field. Hand it only to the fencer or the guardian.",
    ),
    savedFile: _("The file is saved. Delete it when it has served."),
    practice: _("Practice at home"),
    noPractice: _("None was ticked off in the last year."),
    practised: (drill: string, n: number) =>
      ngettext("%(drill)s: on %(n)s day", "%(drill)s: on %(n)s days", n, { drill }),
    otherDrill: _("A drill that was put away"),
    looks: _("Who looked and who changed"),
    erase: _("Erase everything"),
    eraseLead: _("At the wish of the fencer or the guardian. There is no way back."),
    eraseOpen: _("Erase …"),
    eraseGoes: (name: string) => _("Of %(name)s this goes, for good:", { name }),
    eraseStays: _(
      "What stays: one line that a fencer was erased, when and by whom, without a name. Backups made before still hold the records; so does a file you saved.",
    ),
    eraseType: (name: string) => _("Type %(name)s to confirm", { name }),
    eraseGo: (name: string) => _("Erase %(name)s", { name }),
    erased: (name: string) => _("%(name)s is erased.", { name }),
  },

  link: {
    days: _("Opens for"),
    forDays: (n: number) => ngettext("%(n)s day", "%(n)s days", n),
    close: _("Close"),
    closeOne: (made: string) => _("Close the link made %(made)s", { made }),
    closed: _("The link is closed."),
  },

  club: {
    title: _("Records of the club"),
    lead: _("The records are mostly of minors: keep what is needed, no longer than it is needed."),
    retention: _("How long records are kept"),
    never: _("Until someone erases them"),
    after: _("Erase after a time without a lesson"),
    days: _("Days without a lesson"),
    between: (low: number, high: number) =>
      _("Give a whole number of days from %(low)s to %(high)s.", { low, high }),
    about: (n: number) =>
      n < 365
        ? ngettext("About %(n)s month.", "About %(n)s months.", Math.round(n / 30.44))
        : ngettext("About %(n)s year.", "About %(n)s years.", Math.round(n / 36.525) / 10),
    look: _("See whom it concerns today"),
    nobody: _("Nobody today."),
    concerns: (n: number) =>
      ngettext("%(n)s fencer would be erased today:", "%(n)s fencers would be erased today:", n),
    last: (day: string, n: number) =>
      ngettext(
        "last lesson %(day)s, %(n)s mark or note",
        "last lesson %(day)s, %(n)s marks and notes",
        n,
        {
          day,
        },
      ),
    save: _("Save"),
    savedNever: _("Saved: nothing is erased by itself."),
    savedDays: (n: number) =>
      ngettext(
        "Saved: records go after %(n)s day without a lesson.",
        "Saved: records go after %(n)s days without a lesson.",
        n,
      ),
    nightly: _(
      "Saving erases nothing. The server's nightly run does: “cueladder retention --apply”, which whoever looks after the server sets up.",
    ),
    looks: _("Who looked and who changed"),
    looksLead: _("Looking at one fencer, exporting, changing and erasing are noted here."),
    noFencers: _("No fencers yet."),
    fencers: _("Records of one fencer"),
  },

  audit: {
    none: _("Nothing yet."),
    more: _("Older entries"),
    erasedFencer: _("an erased fencer"),
    outside: _("someone with the progress link"),
    server: _("the server"),
    actions: named({
      added: _("added"),
      imported: _("imported with a table"),
      changed: _("changed"),
      erased: _("erased"),
      exported: _("exported"),
      looked: _("looked"),
      "link made": _("made a progress link"),
      "link closed": _("closed a progress link"),
      "links closed": _("closed the progress links"),
      "page opened": _("opened the progress page"),
      practised: _("ticked off practice at home"),
    }),
    fields: named({
      nickname: _("nickname"),
      born: _("year of birth"),
      weapon: _("weapon"),
      hand: _("hand"),
      joined: _("day of joining"),
      consent: _("consent"),
      booking: _("lessons planned"),
      note: _("note"),
      archived: _("put away or not"),
    }),
  },
};

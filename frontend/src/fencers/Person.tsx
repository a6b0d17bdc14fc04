/** Add, edit or archive a fencer; stored on the phone first, so it works offline. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { addFencer, changeFencer } from "../app/edit";
import { go } from "../app/router";
import { edits, fencerOf, isObserver, session } from "../app/state";
import { useTyped } from "../app/typed";
import { WEAPONS } from "../app/vocabulary";
import { fencerIn } from "../device/edit";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";
import { reasonsOf } from "../ui/Refused";
import { PageHead } from "../ui/SyncPill";
import { History } from "./History";
import {
  changesOf,
  fieldsOf,
  HANDS,
  type Typed,
  typedOf,
  type Wrong,
  withdrawnBy,
  wrongIn,
} from "./personForm";
import "./fencers.css";

export function Person({ id }: { id: string }) {
  const fencer = fencerOf(id);
  const refused = edits.value.find(
    (edit) => edit.why && fencerIn(edit) === id && edit.coach === session.value?.coach.id,
  );
  if (isObserver()) {
    return <p class="page lead">{_("Coaches change fencers; you are here as an observer.")}</p>;
  }
  if (id !== "" && !fencer && refused?.method !== "POST") {
    return <p class="page lead">{_("There is no such fencer on this phone.")}</p>;
  }
  const name = fencer?.nickname ?? refused?.about ?? "";
  return (
    <main class="page narrow" data-testid="person">
      <PageHead title={id === "" ? _("A new fencer") : _("Edit %(name)s", { name })} />
      {refused ? <p class="trouble">{reasonsOf(refused)}</p> : null}
      <Form fencer={fencer} refused={refused} />
      {fencer ? (
        <>
          <Archive fencer={fencer} />
          <History fencer={fencer} />
        </>
      ) : null}
    </main>
  );
}

/** Of somebody new these are typed at one go: what is left lying must not pass to the next child. */
const CONSENTS = ["consent", "noise_self", "noise_guardian"] as const;

interface FormProps {
  fencer: Fencer | undefined;
  refused: (typeof edits.value)[number] | undefined;
}

function Form({ fencer, refused }: FormProps) {
  // as when the form opened: later changes by others are not this coach's
  const [before] = useState(fencer);
  const [typed, change, forget] = useTyped<Typed>(
    `fencer ${fencer?.id ?? ""}`,
    () => typedOf({ ...fencer, ...refused?.body }),
    fencer ? [] : CONSENTS,
  );
  const [wrong, setWrong] = useState<Wrong>({});
  const [sure, setSure] = useState(false);
  const set = (name: keyof Typed) => (value: string) => {
    change({ [name]: value });
    setWrong(({ [name]: _mended, ...others }) => others);
  };
  const save = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const found = wrongIn(typed);
    // a half-typed date reads as empty; the browser's validity tells
    for (const name of ["joined", "consent", "noise_self", "noise_guardian"] as const) {
      const input = form.elements.namedItem(name) as HTMLInputElement;
      if (input.validity.badInput) found[name] = _("Choose a real day, or leave it empty.");
    }
    setWrong(found);
    const [first] = Object.keys(found);
    if (first !== undefined) {
      const field = form.elements.namedItem(first);
      ((field instanceof RadioNodeList ? field[0] : field) as HTMLElement | null)?.focus();
      return;
    }
    if (withdrawnBy(before, typed) && !sure) {
      setSure(true);
      return;
    }
    if (await keep(before, typed, refused)) {
      forget();
      go("/fencers");
    }
  };
  const given = (name: keyof Typed) => ({
    name,
    value: typed[name],
    onPut: set(name),
    wrong: wrong[name],
  });
  return (
    <form onSubmit={save} noValidate>
      <p class="soft">
        {_("A nickname and a year of birth suffice: no surname, no photo, no health data.")}
      </p>
      <Entry label={_("Nickname")} {...given("nickname")} most={60} />
      <Entry
        label={_("Year of birth")}
        hint={_("The year only. May stay empty.")}
        {...given("born")}
        inputMode="numeric"
        most={4}
      />
      <Pick label={_("Weapon")} {...given("weapon")} of={WEAPONS} />
      <Pick label={_("Hand")} {...given("hand")} of={HANDS} />
      <Entry
        label={_("Consent to keep these records, given on")}
        hint={_("For a minor, the guardian gives it. Your club's policy comes first.")}
        {...given("consent")}
        type="date"
      />
      <fieldset class="field">
        <legend>{_("Consent to shouting and stamping in lessons")}</legend>
        <p class="soft">
          {_(
            "Without it such cues are not offered. It may be withdrawn at any time: clear the day. For a minor, both are needed.",
          )}
        </p>
        <Entry label={_("The fencer, on")} {...given("noise_self")} type="date" />
        <Entry label={_("A parent or guardian, on")} {...given("noise_guardian")} type="date" />
      </fieldset>
      <Entry label={_("Joined the club on")} {...given("joined")} type="date" />
      <label class="field">
        <span>{_("Note for the coaches")}</span>
        <textarea
          name="note"
          rows={3}
          maxLength={500}
          value={typed.note}
          onInput={(event) => set("note")(event.currentTarget.value)}
        />
      </label>
      {sure ? (
        <p class="trouble" role="alert" data-testid="withdraws">
          {_("This withdraws a consent. It is dated, and the older day stays in the history.")}
        </p>
      ) : null}
      <div class="enter">
        <button type="submit" class="strong" data-testid="save-fencer">
          {sure ? _("Withdraw it and save") : _("Save")}
        </button>
        <a class="plain" href="/fencers" data-testid="cancel-fencer" onClick={forget}>
          {_("Cancel")}
        </a>
      </div>
    </form>
  );
}

async function keep(
  fencer: Fencer | undefined,
  typed: Typed,
  refused: FormProps["refused"],
): Promise<boolean> {
  if (fencer === undefined) return addFencer(fieldsOf(typed), refused);
  const changes = changesOf(fencer, typed);
  return Object.keys(changes).length === 0 || changeFencer(fencer, changes, refused);
}

interface FieldProps {
  name: string;
  label: string;
  value: string;
  onPut: (value: string) => void;
  wrong: string | undefined;
}

interface EntryProps extends FieldProps {
  hint?: string;
  most?: number;
  type?: "date";
  inputMode?: "numeric";
}

function Entry({ name, label, value, onPut, wrong, hint, most, type, inputMode }: EntryProps) {
  const input = {
    id: `field-${name}`,
    name,
    value,
    "aria-invalid": wrong !== undefined,
    "aria-describedby": `about-${name}`,
    onInput: (event: Event) => onPut((event.currentTarget as HTMLInputElement).value),
  };
  return (
    <div class="field">
      <label for={input.id}>{label}</label>
      {type === "date" ? (
        <input type="date" {...input} />
      ) : (
        <input type="text" autocomplete="off" maxLength={most} inputMode={inputMode} {...input} />
      )}
      <About name={name} wrong={wrong}>
        {hint}
      </About>
    </div>
  );
}

interface PickProps extends FieldProps {
  of: Record<string, string>;
}

function Pick({ name, label, value, onPut, wrong, of }: PickProps) {
  return (
    <fieldset class="field picks" aria-describedby={`about-${name}`}>
      <legend>{label}</legend>
      <div>
        {Object.keys(of).map((one) => (
          <label key={one}>
            <input
              type="radio"
              name={name}
              value={one}
              checked={one === value}
              onChange={() => onPut(one)}
            />
            <span>{of[one]}</span>
          </label>
        ))}
      </div>
      <About name={name} wrong={wrong} />
    </fieldset>
  );
}

interface AboutProps {
  name: string;
  wrong: string | undefined;
  children?: ComponentChildren;
}

/** A field's hint or error. */
const About = ({ name, wrong, children }: AboutProps) => (
  <small id={`about-${name}`} class={wrong ? "wrong" : ""} data-testid={`about-${name}`}>
    {wrong ?? children}
  </small>
);

function Archive({ fencer }: { fencer: Fencer }) {
  const flip = async () => {
    if (await changeFencer(fencer, { archived: !fencer.archived })) go("/fencers");
  };
  return (
    <section class="card">
      <p>
        {fencer.archived
          ? _("Archived: not in the lists.")
          : _("Out of the lists, with every lesson kept. Can be restored at any time.")}
      </p>
      <button type="button" class="plain" data-testid="archive" onClick={flip}>
        {fencer.archived ? _("Restore") : _("Archive")}
      </button>
    </section>
  );
}

/** A fencer's fields: added, changed, archived; on this phone first, so that it works offline. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { fencerIn } from "../device/edits";
import type { Fencer } from "../device/types";
import { go } from "../router";
import { PageHead } from "../SyncPill";
import { edits, fencerOf, session } from "../state";
import { words } from "../words";
import { peopleWords } from "../words.people";
import { addFencer, changeFencer } from "./edit";
import { History } from "./History";
import { changesOf, fieldsOf, type Typed, typedOf, type Wrong, wrongIn } from "./personForm";
import { reasonsOf } from "./Refused";

const said = peopleWords.form;

export function Person({ id }: { id: string }) {
  const fencer = fencerOf(id);
  const refused = edits.value.find(
    (edit) => edit.why && fencerIn(edit) === id && edit.coach === session.value?.coach.id,
  );
  if (session.value?.coach.role === "observer") return <p class="page lead">{said.coachesOnly}</p>;
  if (id !== "" && !fencer && refused?.method !== "POST")
    return <p class="page lead">{said.gone}</p>;
  const name = fencer?.nickname ?? refused?.about ?? "";
  return (
    <main class="page narrow" data-testid="person">
      <PageHead title={id === "" ? said.new : said.change(name)} />
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

interface FormProps {
  fencer: Fencer | undefined;
  refused: (typeof edits.value)[number] | undefined;
}

function Form({ fencer, refused }: FormProps) {
  // as it was when the form opened: what another wrote since is not this coach's change
  const [before] = useState(fencer);
  const [typed, setTyped] = useState<Typed>(() => typedOf({ ...fencer, ...refused?.body }));
  const [wrong, setWrong] = useState<Wrong>({});
  const set = (name: keyof Typed) => (value: string) => {
    setTyped((now) => ({ ...now, [name]: value }));
    setWrong(({ [name]: _mended, ...others }) => others);
  };
  const save = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const found = wrongIn(typed);
    // a day half typed reads as empty: the browser knows it
    for (const name of ["joined", "consent"] as const) {
      const input = form.elements.namedItem(name) as HTMLInputElement;
      if (input.validity.badInput) found[name] = said.dayWrong;
    }
    setWrong(found);
    const [first] = Object.keys(found);
    if (first !== undefined) {
      const field = form.elements.namedItem(first);
      ((field instanceof RadioNodeList ? field[0] : field) as HTMLElement | null)?.focus();
      return;
    }
    if (await keep(before, typed, refused)) go("/fencers");
  };
  const given = (name: keyof Typed) => ({
    name,
    value: typed[name],
    onPut: set(name),
    wrong: wrong[name],
  });
  return (
    <form onSubmit={save} noValidate>
      <p class="soft">{said.lead}</p>
      <Entry label={said.nickname} {...given("nickname")} most={60} />
      <Entry
        label={said.born}
        hint={said.bornHint}
        {...given("born")}
        inputMode="numeric"
        most={4}
      />
      <Pick label={said.weapon} {...given("weapon")} of={words.weapons} />
      <Pick label={said.hand} {...given("hand")} of={said.hands} />
      <Entry label={said.consent} hint={said.consentHint} {...given("consent")} type="date" />
      <Entry label={said.joined} {...given("joined")} type="date" />
      <label class="field">
        <span>{said.note}</span>
        <textarea
          name="note"
          rows={3}
          maxLength={500}
          value={typed.note}
          onInput={(event) => set("note")(event.currentTarget.value)}
        />
      </label>
      <div class="enter">
        <button type="submit" class="strong" data-testid="save-fencer">
          {said.save}
        </button>
        <a class="plain" href="/fencers">
          {peopleWords.cancel}
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

/** What to know of a field, and what is wrong with it. */
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
      <p>{fencer.archived ? said.isArchived : said.archiveLead}</p>
      <button type="button" class="plain" data-testid="archive" onClick={flip}>
        {fencer.archived ? peopleWords.restore : said.archive}
      </button>
    </section>
  );
}

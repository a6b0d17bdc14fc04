/** What a drill is, in words; and what kind, for which weapons. */
import type { DrillDocument } from "../device/types";
import { club } from "../state";
import { words } from "../words";
import { drillWords } from "../words.drills";
import { TEXTS } from "./drillDraft";
import { Fault, faultsAt } from "./Fault";

const said = drillWords.write;

interface Props {
  doc: DrillDocument;
  /** What the coach may give in a drill of this kind. */
  gives: string[];
  errors: Record<string, string[]>;
  onChange: (doc: DrillDocument) => void;
}

export function DrillTexts({ doc, gives, errors, onChange }: Props) {
  return (
    <section class="card" data-testid="edit-texts">
      <h2>{said.texts}</h2>
      {TEXTS.map((name) => {
        const Field = name === "name" || name === "action" ? "input" : "textarea";
        return (
          <div key={name} class="field">
            <label htmlFor={`field-${name}`}>{said.fields[name]}</label>
            <Field
              id={`field-${name}`}
              value={doc[name]}
              maxLength={600}
              rows={Field === "textarea" ? 3 : undefined}
              aria-invalid={faultsAt(errors, [name]).length > 0}
              aria-describedby={`fault-${name}`}
              data-testid={`text-${name}`}
              onInput={(event: Event) =>
                onChange({ ...doc, [name]: (event.currentTarget as HTMLInputElement).value })
              }
            />
            <Fault errors={errors} at={[name]} />
          </div>
        );
      })}
      <fieldset class="radios" id="field-kind" tabIndex={-1}>
        <legend>{said.kind}</legend>
        {Object.entries(words.kinds).map(([kind, label]) => (
          <label key={kind}>
            <input
              type="radio"
              name="kind"
              checked={doc.kind === kind}
              data-testid={`kind-${kind}`}
              onChange={() => onChange({ ...doc, kind })}
            />
            {label}
          </label>
        ))}
        <Fault errors={errors} at={["kind"]} />
      </fieldset>
      {gives.length < 2 ? null : (
        <label class="field">
          <span>{said.gives}</span>
          <select
            id="field-gives"
            value={doc.gives}
            data-testid="gives"
            onChange={(event) => onChange({ ...doc, gives: event.currentTarget.value })}
          >
            {gives.map((one) => (
              <option key={one} value={one}>
                {said.givesWords[one] ?? one}
              </option>
            ))}
          </select>
        </label>
      )}
      <fieldset class="radios" id="field-weapon" tabIndex={-1}>
        <legend>{said.weapons}</legend>
        {Object.entries(words.weapons).map(([weapon, label]) => (
          <label key={weapon}>
            <input
              type="checkbox"
              checked={doc.weapon.includes(weapon)}
              data-testid={`weapon-${weapon}`}
              onChange={(event) => {
                const others = doc.weapon.filter((one) => one !== weapon);
                const chosen = event.currentTarget.checked ? [...others, weapon] : others;
                onChange({ ...doc, weapon: chosen });
              }}
            />
            {label}
          </label>
        ))}
        <Fault errors={errors} at={["weapon"]} />
      </fieldset>
      <label class="field">
        <span>{said.paired}</span>
        <select
          value={doc.paired ?? ""}
          data-testid="paired"
          onChange={(event) => onChange({ ...doc, paired: event.currentTarget.value || null })}
        >
          <option value="">{said.noPair}</option>
          {(club.value?.drills ?? [])
            .filter((one) => one.slug !== doc.slug && (!one.archived || one.slug === doc.paired))
            .map((one) => (
              <option key={one.id} value={one.slug}>
                {one.name}
              </option>
            ))}
        </select>
      </label>
    </section>
  );
}

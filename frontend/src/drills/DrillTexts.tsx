/** A drill's texts, kind, weapons and paired drill. */
import { club } from "../app/state";
import { KINDS, WEAPONS } from "../app/vocabulary";
import type { DrillDocument } from "../device/types";
import { _ } from "../language/i18n";
import { TEXTS } from "./drillDraft";
import { Fault, faultsAt } from "./Fault";
import { TEXT_FIELDS } from "./fieldNames";

const GIVES: Record<string, string> = {
  attacks: _("Cues to answer"),
  decoys: _("Cues to leave"),
  either: _("Both, mixed"),
};

interface Props {
  doc: DrillDocument;
  /** Allowed values of `gives` for this kind. */
  gives: string[];
  errors: Record<string, string[]>;
  onChange: (doc: DrillDocument) => void;
}

export function DrillTexts({ doc, gives, errors, onChange }: Props) {
  return (
    <section class="card" data-testid="edit-texts">
      <h2>{_("What it is")}</h2>
      {TEXTS.map((name) => {
        const Field = name === "name" || name === "action" ? "input" : "textarea";
        return (
          <div key={name} class="field">
            <label htmlFor={`field-${name}`}>{TEXT_FIELDS[name]}</label>
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
        <legend>{_("What it trains")}</legend>
        {Object.entries(KINDS).map(([kind, label]) => (
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
          <span>{_("What the coach gives")}</span>
          <select
            id="field-gives"
            value={doc.gives}
            data-testid="gives"
            onChange={(event) =>
              onChange({ ...doc, gives: event.currentTarget.value as DrillDocument["gives"] })
            }
          >
            {gives.map((one) => (
              <option key={one} value={one}>
                {GIVES[one] ?? one}
              </option>
            ))}
          </select>
        </label>
      )}
      <fieldset class="radios" id="field-weapon" tabIndex={-1}>
        <legend>{_("Weapons")}</legend>
        {Object.entries(WEAPONS).map(([weapon, label]) => (
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
        <span>{_("If the cue startles, turn to")}</span>
        <select
          value={doc.paired ?? ""}
          data-testid="paired"
          onChange={(event) => onChange({ ...doc, paired: event.currentTarget.value || null })}
        >
          <option value="">{_("no other drill")}</option>
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

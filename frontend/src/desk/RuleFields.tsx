/** The form of a rule: its family and the family's numbers. */
import { deskWords } from "../words.desk";
import { type Family, FIELDS, firstValues, type Values } from "./ruleForm";

const said = deskWords.rules;

export interface RuleState {
  family: Family;
  values: Values;
}

interface Props extends RuleState {
  errors: Values;
  /** With `picked` another family was chosen. */
  onChange: (next: RuleState, picked: boolean) => void;
}

export function RuleFields({ family, values, errors, onChange }: Props) {
  return (
    <>
      <fieldset>
        <legend class="soft">{said.family}</legend>
        <div class="segments">
          {(Object.keys(said.families) as Family[]).map((one) => (
            <button
              type="button"
              key={one}
              aria-pressed={one === family}
              data-testid={`family-${one}`}
              onClick={() => onChange({ family: one, values: firstValues(one) }, true)}
            >
              {said.families[one]}
            </button>
          ))}
        </div>
      </fieldset>
      <p>{said.about[family]}</p>
      {FIELDS[family].map(({ name }) => (
        <NumberField
          key={name}
          name={name}
          label={said.fields[name] ?? name}
          value={values[name] ?? ""}
          error={errors[name]}
          onChange={(value) => onChange({ family, values: { ...values, [name]: value } }, false)}
        />
      ))}
    </>
  );
}

interface FieldProps {
  name: string;
  label: string;
  value: string;
  error: string | undefined;
  onChange: (value: string) => void;
}

export const NumberField = ({ name, label, value, error, onChange }: FieldProps) => (
  <label class="field number">
    <span>{label}</span>
    <input
      id={`rule-${name}`}
      type="text"
      inputMode="decimal"
      value={value}
      aria-invalid={error !== undefined}
      aria-describedby={error === undefined ? undefined : `rule-${name}-error`}
      data-testid={`rule-${name}`}
      onInput={(event) => onChange(event.currentTarget.value)}
    />
    {error === undefined ? null : (
      <small class="trouble" id={`rule-${name}-error`}>
        {error}
      </small>
    )}
  </label>
);

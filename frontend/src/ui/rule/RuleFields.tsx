/** The form of a rule: its family and the family's numbers. */
import { _ } from "../../language/i18n";
import { type Family, FIELDS, firstValues, type Values } from "./ruleForm";

const FAMILIES = {
  changepoint: _("Turning point"),
  run: _("In a row"),
  window: _("So many of the last"),
  sequential: _("One-off test"),
  rates: _("Turning point, by two rates"),
};

const ABOUT = {
  changepoint: _(
    "Asks whether the answers have become reliable: clean ones add up, a slip costs many. The default of every drill.",
  ),
  run: _("So many clean answers in a row. Easy to say, easily fooled by a lucky streak."),
  window: _("So many clean ones among the last few; forgives a slip."),
  sequential: _(
    "Weighs two rates against each other from the first cue on. Good for an entry test, slow to forgive early slips.",
  ),
  rates: _(
    "The turning point as older drills have it: the count and what a slip costs follow from two rates.",
  ),
};

const LABELS: Record<string, string> = {
  goal: _("Climb at so many clean answers"),
  slip: _("A slip costs"),
  floor: _("May fall behind by at most"),
  p0: _("Not yet enough: right in 100"),
  p1: _("Reliable: right in 100"),
  patience: _("Step back at so many slips close together"),
  n: _("Clean answers in a row"),
  k: _("Clean answers"),
  w: _("Among the last"),
  alpha: _("Risk of a climb too early, in 100"),
  beta: _("Risk of a step back too early, in 100"),
  longest: _("At most so many cues"),
  back_in_row: _("Step back after misses in a row"),
  misses: _("or after misses (leave both empty for never)"),
  among: _("among the last"),
};

export interface RuleState {
  family: Family;
  values: Values;
}

interface Props extends RuleState {
  errors: Values;
  onChange: (next: RuleState) => void;
}

export function RuleFields({ family, values, errors, onChange }: Props) {
  return (
    <>
      <fieldset>
        <legend class="soft">{_("Kind of rule")}</legend>
        <div class="segments">
          {(Object.keys(FAMILIES) as Family[]).map((one) => (
            <button
              type="button"
              key={one}
              aria-pressed={one === family}
              data-testid={`family-${one}`}
              onClick={() => onChange({ family: one, values: firstValues(one) })}
            >
              {FAMILIES[one]}
            </button>
          ))}
        </div>
      </fieldset>
      <p>{ABOUT[family]}</p>
      {FIELDS[family].map(({ name }) => (
        <NumberField
          key={name}
          name={name}
          label={LABELS[name] ?? name}
          value={values[name] ?? ""}
          error={errors[name]}
          onChange={(value) => onChange({ family, values: { ...values, [name]: value } })}
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

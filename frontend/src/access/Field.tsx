/** A form field with a hint or an error below it. */
import type { ComponentChildren } from "preact";
import { _ } from "../language/i18n";

interface Props {
  name: string;
  label: string;
  hint: string;
  wrong: string | undefined;
}

export const Field = ({
  name,
  label,
  hint,
  wrong,
  children,
}: Props & { children: ComponentChildren }) => (
  <div class="field">
    <label for={name}>{label}</label>
    {children}
    <p id={`${name}-hint`} class={wrong ? "trouble" : "soft"}>
      {wrong ? `${label} ${wrong}` : hint}
    </p>
  </div>
);

/** ARIA attributes that tie an input to the hint or error below it. */
export const described = (name: string, wrong: string | undefined) => ({
  "aria-describedby": `${name}-hint`,
  ...(wrong ? { "aria-invalid": true } : {}),
});

export const PassphraseField = ({
  shown,
  isNew = false,
  ...props
}: Props & { shown: boolean; isNew?: boolean }) => (
  <Field {...props}>
    <input
      id={props.name}
      name={props.name}
      // the JSX types want one literal type an input
      type={(shown ? "text" : "password") as "password"}
      autocomplete={isNew ? "new-password" : "current-password"}
      required
      {...(isNew ? { minLength: 12 } : {})}
      maxLength={200}
      {...described(props.name, props.wrong)}
    />
  </Field>
);

export const ShowIt = ({ shown, onFlip }: { shown: boolean; onFlip: (shown: boolean) => void }) => (
  <label class="toggle">
    <input type="checkbox" checked={shown} onChange={() => onFlip(!shown)} />
    <span>{_("Show it")}</span>
  </label>
);

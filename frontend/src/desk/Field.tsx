/** A field of a form with a line under it: a hint, or what is wrong. */
import type { ComponentChildren } from "preact";
import { accessWords } from "../words.access";

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

/** What an input says of itself to those who do not see the line under it. */
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
      // the types tell inputs apart by one fixed type
      type={(shown ? "text" : "password") as "password"}
      autocomplete={isNew ? "new-password" : "current-password"}
      required
      {...(isNew ? { minLength: 10 } : {})}
      maxLength={200}
      {...described(props.name, props.wrong)}
    />
  </Field>
);

export const ShowIt = ({ shown, onFlip }: { shown: boolean; onFlip: (shown: boolean) => void }) => (
  <label class="toggle">
    <input type="checkbox" checked={shown} onChange={() => onFlip(!shown)} />
    <span>{accessWords.code.show}</span>
  </label>
);

/** The server's validation errors, shown beside their field. */

interface Props {
  errors: Record<string, string[]>;
  /** Field names; a trailing `*` matches any suffix. */
  at: string[];
}

export function Fault({ errors, at }: Props) {
  const found = faultsAt(errors, at);
  if (found.length === 0) return null;
  return (
    <p class="trouble" data-testid={`fault-${at[0]}`} id={`fault-${at[0]}`}>
      {found.map(sentence).join(" ")}
    </p>
  );
}

export const faultsAt = (errors: Record<string, string[]>, at: string[]): string[] =>
  Object.entries(errors)
    .filter(([field]) => at.some((one) => covers(one, field)))
    .flatMap(([, why]) => why);

export const covers = (wanted: string, field: string): boolean =>
  wanted.endsWith("*") ? field.startsWith(wanted.slice(0, -1)) : field === wanted;

const sentence = (text: string): string =>
  `${text.slice(0, 1).toLocaleUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? "" : "."}`;

/** Disclosure of exact figures, and tables of them. */
import type { ComponentChildren } from "preact";
import { _ } from "../language/i18n";

interface ExactProps {
  of: string;
  /** Defaults to "Exact figures". */
  title?: string;
  children: ComponentChildren;
}

export const Exact = ({ of, title = _("Exact figures"), children }: ExactProps) => (
  <details class="exact">
    <summary>
      {title}
      <span class="unseen">: {of}</span>
    </summary>
    {children}
  </details>
);

interface TableProps {
  caption: string;
  heads: string[];
  rows: (string | number)[][];
}

/** A table that scrolls sideways on narrow screens, by keyboard too. */
export const Figures = ({ caption, heads, rows }: TableProps) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: so that the keyboard can scroll it
  <section class="figures" tabIndex={0} aria-label={caption}>
    <table>
      <caption class="unseen">{caption}</caption>
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([first, ...rest], at) => (
          <tr key={`${at}${first}`}>
            <th scope="row">{first}</th>
            {rest.map((cell, column) => (
              <td key={heads[column + 1]}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);

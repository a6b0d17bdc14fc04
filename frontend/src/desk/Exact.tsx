/** Plain words first; the exact figures one tap away. */
import type { ComponentChildren } from "preact";
import { locale } from "../i18n";
import type { Reply } from "../useReply";
import { words } from "../words";
import { deskWords } from "../words.desk";

interface ExactProps {
  of: string;
  /** What is one tap away, where it is not the exact figures. */
  title?: string;
  children: ComponentChildren;
}

export const Exact = ({ of, title = words.exact, children }: ExactProps) => (
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

/** Figures in rows; scrolls sideways where the screen is narrow, by keyboard too. */
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

/** Whether what is shown is as of now. */
export function Freshness({ reply }: { reply: Reply<unknown> }) {
  if (reply.is === "asking") return <p class="soft">{deskWords.asking}</p>;
  if (reply.is !== "kept" || reply.at === null) return null;
  return (
    <p class="soft">
      {deskWords.keptFrom(
        new Date(reply.at).toLocaleString(locale, { dateStyle: "medium", timeStyle: "short" }),
      )}
    </p>
  );
}

/** A day of the server or the phone, e.g. "5 December", in tables "5 Dec". */
export const dayWords = (day: string, month: "long" | "short" = "long"): string =>
  new Date(`${day.slice(0, 10)}T12:00:00`).toLocaleDateString(locale, {
    day: "numeric",
    month,
    ...(day.slice(0, 4) === String(new Date().getFullYear()) ? {} : { year: "numeric" }),
  });

/** A server-drawn plot with its sentence and table. */
import { useState } from "preact/hooks";
import { settings } from "../app/settings";
import { _ } from "../language/i18n";
import { Exact, Figures } from "./Exact";
import "./plot.css";

interface Props {
  /** Path of the SVG without `tone`; null if there is too little to draw. */
  src: string | null;
  title: string;
  words: string;
  /** How to read the plot. */
  note?: string;
  heads: string[];
  rows: (string | number)[][];
}

export const Plot = ({ src, title, words, note, heads, rows }: Props) => (
  <>
    {words === "" ? null : <p>{words}</p>}
    {src === null ? null : <Picture src={src} alt={`${title}. ${words}${note ?? ""}`} />}
    {note ? <p class="soft">{note}</p> : null}
    {rows.length === 0 ? null : (
      <Exact of={title}>
        <Figures caption={title} heads={heads} rows={rows} />
      </Exact>
    )}
  </>
);

function Picture({ src, alt }: { src: string; alt: string }) {
  const [away, setAway] = useState(false);
  if (away) return <p class="soft">{_("The picture did not arrive; the table says the same.")}</p>;
  const { theme } = settings.value;
  const dark = `${src}?tone=dark`;
  return (
    <picture>
      {theme === "auto" ? <source media="(prefers-color-scheme: dark)" srcset={dark} /> : null}
      <img
        class="plot"
        src={theme === "dark" ? dark : src}
        alt={alt}
        width={340}
        height={175}
        loading="lazy"
        onError={() => setAway(true)}
      />
    </picture>
  );
}

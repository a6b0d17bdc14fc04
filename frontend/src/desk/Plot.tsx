/** A picture drawn by the server, a sentence, and the same as a table. */
import { useState } from "preact/hooks";
import { settings } from "../settings";
import { clubWords } from "../words.club";
import { Exact, Figures } from "./Exact";
import "../style/plot.css";

interface Props {
  /** Path of the picture, without its tone; null where there is too little to draw. */
  src: string | null;
  title: string;
  words: string;
  /** How to read it, below the picture. */
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
  if (away) return <p class="soft">{clubWords.plots.away}</p>;
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

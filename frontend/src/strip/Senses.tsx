/** Settings for working without looking: the voice, the rhythms, the keys. */
import { useEffect, useState } from "preact/hooks";
import { choose, settings } from "../settings";
import { inputs } from "../words.inputs";
import { buzz, FELT, type Felt, say, voice } from "./feedback";
import { KeysSheet } from "./KeysSheet";

const words = inputs.senses;

export function Senses() {
  const [keys, setKeys] = useState(false);
  return (
    <section class="card" data-testid="senses">
      <h2>{words.title}</h2>
      <p>{words.lead}</p>
      <Voice />
      <h3>{words.patterns}</h3>
      {"vibrate" in navigator ? null : <p>{words.still}</p>}
      <ul class="felt">
        {(Object.keys(FELT) as Felt[]).map((felt) => {
          const [what = "", how] = words.felt[felt] ?? [];
          return (
            <li key={felt}>
              <Rhythm beats={FELT[felt]} />
              <span>
                <b>{what}</b>
                <small>{how}</small>
              </span>
              <button
                type="button"
                class="plain"
                data-testid={`try-${felt}`}
                aria-label={words.tryOf(what)}
                onClick={() => {
                  buzz(felt);
                  say(what);
                }}
              >
                {words.try}
              </button>
            </li>
          );
        })}
      </ul>
      <h3>{inputs.keys.title}</h3>
      <button type="button" class="plain" data-testid="open-keys" onClick={() => setKeys(true)}>
        {inputs.keys.title}
      </button>
      {keys ? <KeysSheet onClose={() => setKeys(false)} /> : null}
    </section>
  );
}

function Voice() {
  const [found, setFound] = useState(voice());
  useEffect(() => {
    // a browser may list its voices only some time after it was first asked
    const look = () => setFound(voice());
    const synthesis = globalThis.speechSynthesis as SpeechSynthesis | undefined;
    synthesis?.addEventListener?.("voiceschanged", look);
    return () => synthesis?.removeEventListener?.("voiceschanged", look);
  }, []);
  if (found === null) return <p data-testid="no-voice">{words.noVoice}</p>;
  return (
    <>
      <p class="soft">{settings.value.speak ? words.voice(found.name) : words.off}</p>
      <h3>{words.rate}</h3>
      <div class="segments">
        {words.rates.map(([rate, name]) => (
          <button
            type="button"
            key={rate}
            aria-pressed={settings.value.rate === rate}
            data-testid={`rate-${rate}`}
            onClick={() => {
              choose({ rate });
              say(name);
            }}
          >
            {name}
          </button>
        ))}
      </div>
    </>
  );
}

const WIDE = 800;

/** A rhythm as bars in time. */
function Rhythm({ beats }: { beats: number[] }) {
  let at = 0;
  const bars = beats.map((beat, k) => {
    const bar =
      k % 2 === 0 ? <rect key={at} x={at} width={Math.max(beat, 24)} height="120" /> : null;
    at += beat;
    return bar;
  });
  return (
    <svg class="rhythm" viewBox={`0 0 ${WIDE} 120`} aria-hidden="true" focusable="false">
      {bars}
    </svg>
  );
}

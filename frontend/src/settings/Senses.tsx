/** Settings of voice, vibration and keys. */
import { useEffect, useState } from "preact/hooks";
import { choose, settings } from "../app/settings";
import { KeysSheet } from "../keys/KeysSheet";
import { _ } from "../language/i18n";
import { attendSound, buzz, FELT, type Felt, speak, voice } from "../lesson/feedback";

const RHYTHMS = {
  stay: [_("Marked; give it again"), _("one short tick")],
  climb: [_("One step on"), _("short, short, long")],
  back: [_("One step back"), _("long, short, short")],
  rest: [_("Stop this drill for today"), _("three long")],
  undone: [_("Taken back"), _("two ticks")],
  over: [_("The wait is over: now"), _("one long")],
  failed: [_("Not marked"), _("six quick ticks")],
};

const RATES: [number, string][] = [
  [0.8, _("Slow")],
  [1, _("Plain")],
  [1.3, _("Quick")],
];

export function Senses() {
  const [keys, setKeys] = useState(false);
  useEffect(attendSound, [settings.value.sound]);
  return (
    <section class="card" data-testid="senses">
      <h2>{_("Without looking")}</h2>
      <p>
        {_(
          "After each mark the phone tells you what comes next: by a rhythm you feel or hear and, if you turn it on above, by a voice in your ear.",
        )}
      </p>
      <Voice />
      <h3>{_("What each rhythm means")}</h3>
      {"vibrate" in navigator ? null : (
        <p data-testid="no-vibration">
          {_(
            "This phone or browser cannot vibrate: the same rhythms sound as tones, higher for one step on, lower for one step back. A phone switched to silent is silent.",
          )}
        </p>
      )}
      <ul class="felt">
        {(Object.keys(FELT) as Felt[]).map((felt) => {
          const [what = "", how] = RHYTHMS[felt] ?? [];
          return (
            <li key={felt}>
              <span>
                <b>{what}</b>
                <small>{how}</small>
              </span>
              <button
                type="button"
                class="plain"
                data-testid={`try-${felt}`}
                aria-label={_("Try it: %(what)s", { what })}
                onClick={() => {
                  buzz(felt);
                  speak(what);
                }}
              >
                {_("Try it")}
              </button>
              <Rhythm beats={FELT[felt]} />
            </li>
          );
        })}
      </ul>
      <h3>{_("Keys and clicker")}</h3>
      <button type="button" class="plain" data-testid="open-keys" onClick={() => setKeys(true)}>
        {_("Keys and clicker")}
      </button>
      {keys ? <KeysSheet onClose={() => setKeys(false)} /> : null}
    </section>
  );
}

function Voice() {
  const [found, setFound] = useState(voice());
  useEffect(() => {
    // browsers load voices asynchronously
    const look = () => setFound(voice());
    const synthesis = globalThis.speechSynthesis as SpeechSynthesis | undefined;
    synthesis?.addEventListener?.("voiceschanged", look);
    return () => synthesis?.removeEventListener?.("voiceschanged", look);
  }, []);
  if (found === null) {
    return (
      <p data-testid="no-voice">
        {_(
          "This browser has no voice of this phone's own in the app's language, so nothing is spoken. A voice can often be added in the phone's own settings.",
        )}
      </p>
    );
  }
  return (
    <>
      <p class="soft">
        {settings.value.speak
          ? _("Voice: %(name)s, on this phone; nothing is sent away.", { name: found.name })
          : _("The voice is turned off above.")}
      </p>
      <h3>{_("Pace of the voice")}</h3>
      <div class="segments">
        {RATES.map(([rate, name]) => (
          <button
            type="button"
            key={rate}
            aria-pressed={settings.value.rate === rate}
            data-testid={`rate-${rate}`}
            onClick={() => {
              choose({ rate });
              speak(name);
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

/** A vibration pattern drawn over time. */
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

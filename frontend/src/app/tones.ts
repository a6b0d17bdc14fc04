/** The rhythms as short tones, for phones that cannot vibrate. */

/** A tick that is felt is too short to be heard. */
const SHORTEST_S = 0.05;
const LOUD = 0.25;
/** Rise and fall of a tone, so that it does not crack. */
const EDGE_S = 0.008;

let context: AudioContext | null = null;

/** Browsers let a page sound from a touch on only, and again after a call. */
export function wake(): void {
  if (!("AudioContext" in globalThis)) return;
  context ??= new AudioContext();
  if (context.state !== "running") context.resume().catch(console.warn);
}

/**
 * @param beats ms on, off, on …, as they would be felt
 * @param from pitch of the first tone in Hz
 * @param to of the last
 */
export function sound(beats: number[], from: number, to: number): void {
  wake();
  if (context === null) return;
  const last = Math.max(1, beats.length - 1);
  let at = context.currentTime;
  for (const [k, beat] of beats.entries()) {
    const seconds = beat / 1000;
    if (k % 2 === 0)
      tone(context, from + ((to - from) * k) / last, at, Math.max(seconds, SHORTEST_S));
    at += seconds;
  }
}

function tone(on: AudioContext, pitch: number, from: number, seconds: number): void {
  const source = new OscillatorNode(on, { type: "triangle", frequency: pitch });
  const level = new GainNode(on, { gain: 0 });
  level.gain.setValueAtTime(0, from);
  level.gain.linearRampToValueAtTime(LOUD, from + EDGE_S);
  level.gain.setValueAtTime(LOUD, from + seconds - EDGE_S);
  level.gain.linearRampToValueAtTime(0, from + seconds);
  source.connect(level).connect(on.destination);
  source.start(from);
  source.stop(from + seconds);
}

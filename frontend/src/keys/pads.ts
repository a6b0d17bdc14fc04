/** Gamepad buttons, polled each frame while one is connected: browsers have no events for them. */

/** Report presses and releases as `Pad 1` and so on. @returns a function that stops it */
export function watchPads(down: (name: string) => void, up: (name: string) => void): () => void {
  let held = new Set<string>();
  let frame = 0;
  const look = () => {
    const pads = (navigator.getGamepads?.() ?? []).filter((pad) => pad !== null);
    const now = new Set(
      pads.flatMap((pad) =>
        pad.buttons.flatMap((button, at) => (button.pressed ? [`Pad ${at + 1}`] : [])),
      ),
    );
    const before = held;
    held = now;
    for (const name of before) if (!now.has(name)) up(name);
    for (const name of now) if (!before.has(name)) down(name);
    frame = pads.length > 0 ? requestAnimationFrame(look) : 0;
  };
  const begin = () => {
    if (frame === 0) look();
  };
  addEventListener("gamepadconnected", begin);
  begin();
  return () => {
    removeEventListener("gamepadconnected", begin);
    cancelAnimationFrame(frame);
  };
}

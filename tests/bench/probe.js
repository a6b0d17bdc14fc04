// Four moments of each tap, in ms after the finger's own time stamp: the page heard of it; the screen
// named the new mark (which it does once both stores have it); its frame began; the frame was done.
(() => {
  const taps = [];
  const waiting = [];
  const frame = new MessageChannel();
  frame.port1.onmessage = ({ data }) => taps.push([...data.slice(1), performance.now() - data[0]]);
  addEventListener(
    "pointerup",
    (event) => {
      if (!event.target.closest?.(".mark")) return;
      waiting.push([event.timeStamp, performance.now() - event.timeStamp]);
    },
    true,
  );
  new MutationObserver(() => {
    const tap = waiting.shift();
    if (tap === undefined) return;
    tap.push(performance.now() - tap[0]);
    requestAnimationFrame(() => {
      tap.push(performance.now() - tap[0]);
      frame.port2.postMessage(tap);
    });
  }).observe(document, { subtree: true, attributeFilter: ["data-last"] });
  globalThis.cueLadderTaps = taps;
})();

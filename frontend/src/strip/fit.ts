/** As large as the cue is whole: any drill, language and text size. */
import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

/** Steps of the font size, largest first; below the last one the cue scrolls. */
const STEPS = [1.45, 1.3, 1.15, 1, 0.97, 0.92, 0.84, 0.76, 0.68, 0.6, 0.52, 0.46];

function fit(box: HTMLElement): void {
  for (const step of STEPS) {
    box.style.setProperty("--fit", String(step));
    if (box.scrollHeight <= box.clientHeight && box.scrollWidth <= box.clientWidth) return;
  }
}

/** @param shown changes with what stands in the box */
export function useFit(shown: string): RefObject<HTMLElement | null> {
  const box = useRef<HTMLElement | null>(null);
  useLayoutEffect(() => {
    const here = box.current;
    if (here === null) return;
    // Called once at first, before anything is painted. The parts are observed, too: one that grows
    // as another beside the box goes leaves the box as large.
    const seen = new ResizeObserver(() => fit(here));
    for (const one of [here, ...here.children]) seen.observe(one);
    return () => seen.disconnect();
  }, [shown]);
  return box;
}

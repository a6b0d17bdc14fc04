/** Drag and drop reordering by a grip; the buttons beside it serve the keyboard. */
import { useRef, useState } from "preact/hooks";

export function useDrag(move: (from: number, to: number) => void) {
  const list = useRef<HTMLOListElement>(null);
  const [way, setWay] = useState<{ from: number; to: number } | null>(null);
  /** Index of the entry at a y coordinate, clamped to the ends. */
  const at = (y: number): number => {
    const all = [...(list.current?.children ?? [])].map((one) => one.getBoundingClientRect());
    const found = all.findIndex((one) => y < one.bottom);
    return found < 0 ? all.length - 1 : found;
  };
  const gripOf = (from: number) => ({
    "aria-hidden": true,
    onPointerDown: (event: PointerEvent) => {
      event.preventDefault();
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      setWay({ from, to: from });
    },
    onPointerMove: (event: PointerEvent) => {
      if (way !== null) setWay({ from: way.from, to: at(event.clientY) });
    },
    onPointerUp: () => {
      setWay(null);
      if (way !== null && way.to !== way.from) move(way.from, way.to);
    },
    onPointerCancel: () => setWay(null),
  });
  /** Drag state of an entry: held, or the drop target. */
  const markOf = (index: number): "held" | "above" | "below" | undefined => {
    if (way === null) return undefined;
    if (index === way.from) return "held";
    if (index !== way.to) return undefined;
    return way.to < way.from ? "above" : "below";
  };
  return { list, gripOf, markOf };
}

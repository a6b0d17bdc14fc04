/** A part of a screen whose script comes after the first mark could be made. */
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

/** Draws nothing until its script is here. */
export function later<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  let loaded: ComponentType<P> | null = null;
  return function Later(props: P) {
    const [Part, setPart] = useState<ComponentType<P> | null>(() => loaded);
    useEffect(() => {
      if (loaded !== null) return;
      load().then((found) => {
        loaded = found;
        setPart(() => found);
      }, console.error);
    }, []);
    return Part === null ? null : <Part {...props} />;
  };
}

/** Lazily loaded components. */
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

interface Late {
  load: () => Promise<unknown>;
}

/** A component that renders once its chunk has loaded. */
export function lazy<P extends object>(
  load: () => Promise<ComponentType<P>>,
): ComponentType<P> & Late {
  let here: ComponentType<P> | null = null;
  const fetch = () =>
    load().then((found) => {
      here = found;
    });
  const Shell = (props: P) => {
    const [, draw] = useState(0);
    const Part = here;
    useEffect(() => {
      // by now another mount may have loaded it: this one has still to render
      if (Part === null) fetch().then(() => draw(1), console.error);
    }, []);
    return Part === null ? null : <Part {...props} />;
  };
  return Object.assign(Shell, { load: fetch });
}

const SOON_MS = 1_500;

/**
 * Preload components after a delay, so that the first tap finds them loaded.
 *
 * @returns cancels it
 */
export function preloadSoon(...parts: Late[]): () => void {
  const timer = setTimeout(() => {
    for (const part of parts) part.load().catch(console.warn);
  }, SOON_MS);
  return () => clearTimeout(timer);
}

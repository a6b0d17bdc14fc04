/** Parts of a screen that are fetched after it, so that it stands sooner. */
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

interface Late {
  load: () => Promise<unknown>;
}

/** A component that draws itself once its file has come. */
export function later<P extends object>(
  load: () => Promise<ComponentType<P>>,
): ComponentType<P> & Late {
  let here: ComponentType<P> | null = null;
  const fetch = () =>
    load().then((found) => {
      here = found;
    });
  const Shell = (props: P) => {
    const [, draw] = useState(0);
    useEffect(() => {
      if (here === null) fetch().then(() => draw(1), console.error);
    }, []);
    const Part = here;
    return Part === null ? null : <Part {...props} />;
  };
  return Object.assign(Shell, { load: fetch });
}

const SOON_MS = 1_500;

/** Fetch parts a little later, so that the first tap on one finds it here. */
export function loadSoon(...parts: Late[]): () => void {
  const timer = setTimeout(() => {
    for (const part of parts) part.load().catch(console.warn);
  }, SOON_MS);
  return () => clearTimeout(timer);
}

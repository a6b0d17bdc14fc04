/** A mutex: runs asynchronous work one piece at a time, in the order requested. */
type Serialise = <T>(work: () => Promise<T>) => Promise<T>;

/** A failing piece does not stop the next. */
export function serialiser(): Serialise {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const done = last.then(work);
    last = done.catch(() => undefined);
    return done;
  };
}

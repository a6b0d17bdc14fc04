/** Work done one piece after the other, in the order it was asked for. */
export type InTurn = <T>(work: () => Promise<T>) => Promise<T>;

/** A line of its own; a piece that fails does not stop the next one. */
export function turns(): InTurn {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const done = last.then(work);
    last = done.catch(() => undefined);
    return done;
  };
}

/** The mark goes first: what need not be seen with it comes behind, once its frame is done. */

/** A few frames, so that a slow phone has drawn the mark; too short for an eye or an ear to miss. */
const BEHIND_MS = 60;

export const behind = (work: () => void): void => {
  setTimeout(work, BEHIND_MS);
};

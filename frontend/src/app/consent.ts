/** Consent that is noted for a fencer: to keeping records, and to voice and stamps in lessons. */
import type { Fencer } from "../device/types";

/** Until the year in which they turn this old is over, a parent or guardian is asked, too. */
const OF_AGE = 18;

/** Whether a fencer may still be a minor; one of unknown age is taken for one. */
export const isMinor = (fencer: Fencer): boolean =>
  fencer.born === null || new Date().getFullYear() - fencer.born <= OF_AGE;

/** Whether voice and stamps were agreed to, by the fencer and for a minor by a guardian. */
export const agreesToNoise = (fencer: Fencer | undefined): boolean =>
  fencer !== undefined &&
  fencer.noise_self != null &&
  (!isMinor(fencer) || fencer.noise_guardian != null);

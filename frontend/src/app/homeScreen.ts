/** Browsers that erase what a site has stored, unless it is on the home screen. */
import { isWebKit } from "../device/engine";

interface Standalone {
  standalone?: boolean;
}

const onHomeScreen = (): boolean =>
  matchMedia("(display-mode: standalone)").matches ||
  (navigator as Navigator & Standalone).standalone === true;

/**
 * Whether this browser erases all that scripts have stored once seven days pass without a visit:
 * databases, files and caches alike, so no second copy here helps.
 */
export const forgets = (): boolean => isWebKit() && !onHomeScreen();

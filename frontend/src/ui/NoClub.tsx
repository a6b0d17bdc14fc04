/** Shown while the phone has yet to fetch the club for the first time. */
import { _ } from "../language/i18n";

export const NoClub = () => (
  <p class="page lead">
    {_(
      "The club's fencers and drills are not on this phone yet. They come with the first connection.",
    )}
  </p>
);

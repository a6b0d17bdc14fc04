/** Why the app belongs on the home screen, and how it gets there. */
import { _ } from "../language/i18n";

export const HomeScreen = () => (
  <p>
    {_(
      "This browser erases what a site has stored once seven days pass without a visit. On the home screen Cue Ladder is spared that: tap Share, then “Add to Home Screen”, and sign in there once. What is sent is safe on the server either way.",
    )}
  </p>
);

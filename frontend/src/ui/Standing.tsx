/** How well a drill stands, as a tag: working, secure, begun or new. */
import { _ } from "../language/i18n";
import type { Standing } from "../rules/chart";

export const STANDINGS = {
  working: _("done once"),
  secure: _("secure"),
  begun: _("begun"),
  none: _("new"),
};

export const StandingTag = ({ is }: { is: keyof typeof STANDINGS }) => (
  <span class="tag" data-standing={is}>
    {STANDINGS[is]}
  </span>
);

export const Stand = ({ standing }: { standing: Standing | undefined }) => (
  <StandingTag is={standing === undefined ? "none" : (standing.secure ?? "begun")} />
);

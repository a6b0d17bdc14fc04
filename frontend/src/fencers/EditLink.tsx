/** Link to a fencer's form. */
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";

export const EditLink = ({ fencer }: { fencer: Fencer }) => (
  <a
    class="quiet"
    href={`/fencers/${fencer.id}/edit`}
    aria-label={_("Edit: %(name)s", { name: fencer.nickname })}
    data-testid={`edit-${fencer.id}`}
  >
    {_("Edit")}
  </a>
);

/** The way to a fencer's fields. */
import type { Fencer } from "../device/types";
import { peopleWords } from "../words.people";

export const EditLink = ({ fencer }: { fencer: Fencer }) => (
  <a
    class="quiet"
    href={`/fencers/${fencer.id}/edit`}
    aria-label={peopleWords.editOf(fencer.nickname)}
    data-testid={`edit-${fencer.id}`}
  >
    {peopleWords.edit}
  </a>
);

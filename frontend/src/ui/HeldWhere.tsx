/** In which settings it has held, and which would tell more. */
import type { Replies } from "../device/api-types";

export const HeldWhere = ({ where }: { where: Replies["Where"] }) => (
  <p data-testid="held-where">
    {where.words} {where.next === null ? null : <span class="soft">{where.next}</span>}
  </p>
);

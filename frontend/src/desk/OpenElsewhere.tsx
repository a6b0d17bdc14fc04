/** Why the fencer's lesson of today cannot go on here. */
import { said } from "../words.observer";

export const OpenElsewhere = ({ closed }: { closed: boolean }) => (
  <p class="soft whole" data-testid="elsewhere">
    {closed ? said.today.ended : said.today.elsewhere}
  </p>
);

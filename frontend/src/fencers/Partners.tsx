/** What partners ticked, drill by drill, and the way to a card. */
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";

interface Props {
  fencer: string;
  rows: Replies["Partners"][] | undefined;
}

export const Partners = ({ fencer, rows }: Props) => (
  <section class="card" data-testid="partners-story">
    <h2>{_("With a partner")}</h2>
    {rows?.length === 0 ? (
      <p>{_("No set by a partner was entered yet. A card lets another fencer give one.")}</p>
    ) : null}
    {rows?.map((row) => (
      <div key={row.drill.id} data-testid={`partners-${row.drill.id}`}>
        <h3>{row.drill.name}</h3>
        <p>
          {row.words} <span class="soft">{_("Last on %(day)s.", { day: dayWords(row.last) })}</span>
        </p>
      </div>
    ))}
    <div class="enter">
      <a class="plain" href={`/fencers/${fencer}/card`} data-testid="make-card">
        {_("Make a partner's card")}
      </a>
      <a class="plain" href="/partner" data-testid="to-partner">
        {_("Enter a card")}
      </a>
    </div>
  </section>
);

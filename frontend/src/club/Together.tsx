/** Plans by chance of several fencers, looked at together once their half of the year is over. */
import { waiting } from "../app/state";
import { useReply } from "../app/useReply";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _, ngettext } from "../language/i18n";
import { Exact } from "../ui/Exact";
import { pValue } from "../ui/statistics";

export function Together() {
  const again = waiting.value.mine === 0;
  const { data } = useReply<Replies["AllTogether"]>("club:draws", "/api/club/draws", null, again);
  if (data === null || data.together.length === 0) return null;
  return (
    <section class="card" data-testid="together">
      <h2>{_("Did the lessons do it, in several fencers?")}</h2>
      {data.together.map((one) => (
        <Half key={one.last} of={one} />
      ))}
    </section>
  );
}

function Half({ of }: { of: Replies["Together"] }) {
  const title = ngettext(
    "%(n)s plan by chance that ends by %(day)s",
    "%(n)s plans by chance that end by %(day)s",
    of.plans,
    { day: dayWords(of.last) },
  );
  return (
    <>
      <h3>{title}</h3>
      <p>{of.did?.words ?? of.waits}</p>
      {of.fit === null ? null : (
        <Exact of={title}>
          <p>
            {_(
              "%(p)s, exact over all orders and one-sided: %(as_good)s of %(orders)s reach the fit of the drawn one, itself included (Wampold & Worsham 1986).",
              { as_good: of.fit.as_good, orders: of.fit.orders, p: pValue(of.fit.p) },
            )}
          </p>
        </Exact>
      )}
    </>
  );
}

/** Did the lessons do it: a fencer's plans by chance, and drawing one. For coaches alone. */
import { useState } from "preact/hooks";
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { waiting } from "../app/state";
import { useReply } from "../app/useReply";
import type { Replies } from "../device/api-types";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { Outcome } from "../ui/Answer";
import { Confirm } from "../ui/Confirm";
import { Disclosure } from "../ui/Disclosure";
import { Exact } from "../ui/Exact";
import { pValue, share } from "../ui/statistics";
import { DrawPlan } from "./DrawPlan";

type Draws = Replies["Draws"];
type Draw = Replies["Draw"];
type Drawn = Replies["DrawnDrill"];

export function Chance({ fencer }: { fencer: string }) {
  const path = `/api/fencers/${encodeURIComponent(fencer)}/draws`;
  const [turn, setTurn] = useState(0);
  // a lesson or bout that was sent meanwhile changes what is next
  const again = `${turn} ${waiting.value.mine === 0}`;
  const { data } = useReply<Draws>(`draws:${fencer}`, path, fencer, again);
  if (data === null) return null;
  const changed = () => setTurn(turn + 1);
  return (
    <section class="card" data-testid="chance">
      <h2>{_("Did the lessons do it?")}</h2>
      <p class="soft">
        {_(
          "A plan by chance can tell: the order in which three to five new drills are begun is drawn, and each is watched in bouts before and after. Whatever else makes a fencer better does not know that order. Whoever watches the bouts had better not know it either.",
        )}
      </p>
      {data.draws.map((one) => (
        <Plan key={one.id} of={one} path={path} changed={changed} />
      ))}
      <Disclosure class="exact" summary={_("Draw a plan by chance")} data-testid="to-draw">
        {() => <DrawPlan key={turn} path={path} of={data} changed={changed} />}
      </Disclosure>
    </section>
  );
}

interface PlanProps {
  of: Draw;
  path: string;
  changed: () => void;
}

function Plan({ of, path, changed }: PlanProps) {
  const doing = useDoing();
  const title = _("Drawn on %(day)s for %(coach)s", { day: dayWords(of.drawn), coach: of.coach });
  const withdraw = () =>
    doing.attempt(async () => {
      await thePhone().api.send("DELETE", `${path}/${of.id}`);
      changed();
    });
  return (
    <div data-testid={`draw-${of.id}`}>
      <h3>{title}</h3>
      {of.withdrawn === null ? null : (
        <p>
          {_("Withdrawn on %(day)s by %(coach)s: it is not judged.", {
            day: dayWords(of.withdrawn),
            coach: of.withdrawn_by ?? "–",
          })}
        </p>
      )}
      {of.did === null ? null : <p data-testid="draw-did">{of.did.words}</p>}
      {of.over || of.withdrawn !== null ? (
        <Order of={of} />
      ) : (
        // who watches the bouts opens this page, too
        <Disclosure
          class="exact"
          data-testid="to-order"
          summary={_("The drawn order: for who gives the lessons, not for who watches the bouts")}
        >
          {() => <Order of={of} />}
        </Disclosure>
      )}
      <Figures of={of} title={title} />
      {of.over || of.withdrawn !== null ? null : (
        <div class="actions">
          <Confirm
            named={`withdraw-${of.id}`}
            label={_("Withdraw the plan")}
            says={_(
              "It stays here to be seen and is not judged. Its drills cannot be drawn again before %(day)s is over.",
              { day: dayWords(of.last) },
            )}
            yes={_("Yes, withdraw it")}
            busy={doing.busy}
            onYes={() => void withdraw()}
          />
        </div>
      )}
      {doing.trouble ? <Outcome of={doing} named="draw" /> : null}
    </div>
  );
}

const Order = ({ of }: { of: Draw }) => (
  <>
    {of.next === null ? null : (
      <p data-testid="draw-next">
        <b>{of.next}</b>
      </p>
    )}
    <ol class="rows" data-testid="drawn-order">
      {of.drills.map((one, at) => (
        <li key={one.drill.id}>
          <span>
            {at + 1}. {one.drill.name} <small>{turnWords(one)}</small>
          </span>
        </li>
      ))}
    </ol>
  </>
);

/** When its turn is, and when it was really begun. */
function turnWords({ begins, begun }: Drawn): string {
  const turn = dayWords(begins);
  if (begun === null) return _("from %(turn)s on", { turn });
  const day = dayWords(begun);
  return begun === begins
    ? _("begun on %(day)s", { day })
    : _("begun on %(day)s, its turn from %(turn)s on", { day, turn });
}

const Figures = ({ of, title }: { of: Draw; title: string }) => (
  <Exact of={title}>
    <p>
      {_("Bouts count from %(first)s to %(last)s.", {
        first: dayWords(of.first),
        last: dayWords(of.last),
      })}
    </p>
    {of.fit === null ? null : (
      <p data-testid="draw-p">
        {_(
          "%(p)s, exact over all orders and one-sided: %(as_good)s of %(orders)s reach the fit of the drawn one, itself included (Wampold & Worsham 1986).",
          { as_good: of.fit.as_good, orders: of.fit.orders, p: pValue(of.fit.p) },
        )}
      </p>
    )}
    {of.drills.map((one) => (
      <p key={one.drill.id}>
        {_("%(drill)s, in bouts: before its turn %(before)s, from then on %(after)s.", {
          drill: one.drill.name,
          before: share(one.before.met, one.before.chances),
          after: share(one.after.met, one.after.chances),
        })}{" "}
        {one.overlap?.words}
      </p>
    ))}
    <p>
      {_(
        "Anyone can draw it again: the drills stand in the order of the SHA-256 of %(seed)s, a colon and the drill's number.",
        { seed: of.seed },
      )}
    </p>
  </Exact>
);

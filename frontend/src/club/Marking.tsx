/** Agreement of observers, and whether a coach's order of cues was guessable. */
import { _, ngettext, percent } from "../language/i18n";
import { Exact, Figures } from "../ui/Exact";
import type { Orders, Pair } from "./club";

const kappaWords = (kappa: string, low: string, high: string, cues: number) =>
  ngettext(
    "Kappa %(kappa)s (95 %: %(low)s to %(high)s) from %(n)s cue; 0 is chance, 1 is perfect. Cues of one lesson are alike, so the true range is wider.",
    "Kappa %(kappa)s (95 %: %(low)s to %(high)s) from %(n)s cues; 0 is chance, 1 is perfect. Cues of one lesson are alike, so the true range is wider.",
    cues,
    { kappa, low, high },
  );

export const Pairs = ({ rows }: { rows: Pair[] }) =>
  rows.length === 0 ? (
    <p>
      {_(
        "No lesson was marked by a second person in these weeks. Ten cues marked by two say more about marking than a season marked by one.",
      )}
    </p>
  ) : (
    <ul class="club-rows">
      {rows.map((row) => (
        <li key={row.coach + row.observer}>
          <h3>
            {_("%(coach)s, with %(observer)s watching", { coach: row.name, observer: row.other })}
          </h3>
          <p>{row.words}</p>
          <Exact
            of={_("%(coach)s, with %(observer)s watching", {
              coach: row.name,
              observer: row.other,
            })}
          >
            <p>
              {row.kappa === null || row.low === null || row.high === null
                ? _(
                    "Kappa is given from 30 cues on, if each of the two marked at least 12 of them other than with the commonest mark.",
                  )
                : kappaWords(...figures([row.kappa, row.low, row.high]), row.trials)}
            </p>
            {row.uneven > 0 ? (
              <p>
                {ngettext(
                  "%(n)s mark stands alone: the other did not mark that cue.",
                  "%(n)s marks stand alone: the other did not mark those cues.",
                  row.uneven,
                )}
              </p>
            ) : null}
          </Exact>
        </li>
      ))}
    </ul>
  );

const figures = (values: [number, number, number]) =>
  values.map((value) => value.toFixed(2).replace("-", "−")) as [string, string, string];

export const OrderList = ({ rows }: { rows: Orders[] }) =>
  rows.length === 0 ? (
    <p>{_("No set that mixed cues to answer and cues to leave in these weeks.")}</p>
  ) : (
    <>
      <ul class="club-rows">
        {rows.map((row) => (
          <li key={row.coach}>
            <h3>{row.name}</h3>
            <p>{row.words}</p>
          </li>
        ))}
      </ul>
      <Exact of={_("Could the order be guessed?")}>
        <Figures
          caption={_("Could the order be guessed?")}
          heads={[
            _("Coach"),
            _("Orders judged"),
            _("Guessable"),
            _("Chance of so many if all were fair"),
          ]}
          rows={rows.map((row) => [row.name, row.judged, row.guessable, percent(row.p, 1)])}
        />
        <p>
          {_(
            "Of twenty fair orders, 95 times in 100 none is counted here. Each order is judged alone, the last 20 of each coach.",
          )}
        </p>
      </Exact>
    </>
  );

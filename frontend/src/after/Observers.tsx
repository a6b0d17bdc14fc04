/** Agreement with a second observer, and the cues on which the two differ. */
import type { Agreed } from "../app/replies";
import { club } from "../app/state";
import { _, figure, ngettext } from "../language/i18n";
import { Exact } from "../ui/Exact";
import { interval, share } from "../ui/statistics";
import { markInSentence } from "./markInSentence";

export function Observers({ agreed }: { agreed: Record<string, Agreed> }) {
  const all = Object.entries(agreed);
  if (all.length === 0) return null;
  return (
    <>
      <h3>{_("A second pair of eyes")}</h3>
      {all.map(([coach, one]) => (
        <Observer key={coach} coach={coach} agreed={one} />
      ))}
    </>
  );
}

function Observer({ coach, agreed }: { coach: string; agreed: Agreed }) {
  const name = club.value?.coaches.find(({ id }) => id === coach)?.name ?? _("another coach");
  const { observed, trials, apart } = agreed;
  return (
    <div data-testid="observer">
      <p>
        <b>{_("Marks of %(name)s", { name })}.</b>{" "}
        {agreed.pairs === 0
          ? ""
          : ngettext(
              "%(n)s cue was marked by both.",
              "%(n)s cues were marked by both.",
              agreed.pairs,
            )}{" "}
        {agreed.words}
      </p>
      {apart.length === 0 ? null : (
        <details class="exact">
          <summary>
            {_("Where you differ")}
            <span class="unseen">: {name}</span>
          </summary>
          <ul>
            {apart.map(({ number, cue, coach: mine, second }, at) => (
              <li key={`${number}${at}`}>
                {_("Cue %(n)s (%(cue)s): the coach %(mine)s, the other %(theirs)s.", {
                  n: number ?? at + 1,
                  cue,
                  mine: markInSentence(mine),
                  theirs: markInSentence(second),
                })}
              </li>
            ))}
          </ul>
        </details>
      )}
      {observed === undefined || trials === undefined ? null : (
        <Exact of={name}>
          <p data-testid="kappa">
            {[
              _("Agreed on %(share)s.", { share: share(Math.round(observed * trials), trials) }),
              agreed.kappa === null
                ? _(
                    "Kappa is given from 30 cues on, if each of the two marked at least 12 of them other than with the commonest mark.",
                  )
                : _("Kappa %(kappa)s%(interval)s; 0 is chance, 1 is perfect.", {
                    kappa: figure(agreed.kappa, 2),
                    interval: interval(agreed.low ?? null, agreed.high ?? null),
                  }),
            ].join(" ")}
          </p>
          {agreed.differ?.map(([mine, theirs, n]) => (
            <p key={mine + theirs}>
              {ngettext(
                "You: %(mine)s, they: %(theirs)s; %(n)s time.",
                "You: %(mine)s, they: %(theirs)s; %(n)s times.",
                n,
                { mine: markInSentence(mine), theirs: markInSentence(theirs) },
              )}
            </p>
          ))}
        </Exact>
      )}
    </div>
  );
}

/** Lies over the marks where no intense cue may be given: says why, and what to do. */
import { fencerOf } from "../app/state";
import { _ } from "../language/i18n";
import { hasBoth } from "../lesson/giving";
import { barred } from "../lesson/intensity";
import { chartNow, row } from "../lesson/live";
import "./begin.css";

export function Barred({ onOther }: { onOther: () => void }) {
  const chart = chartNow.value;
  const why = barred.value;
  const lesson = row.value;
  // a mixed drill goes on with soft cues
  if (chart === undefined || lesson === undefined || why === null || hasBoth(chart)) return null;
  const name = fencerOf(lesson.fencer)?.nickname ?? "";
  return (
    <div class="barred" data-testid="barred">
      <p>
        {why === "stopped"
          ? _("Stop was called: nothing intense today.")
          : _(
              "This rung uses shouting or stamping, and no consent to them is noted for %(name)s.",
              {
                name,
              },
            )}
      </p>
      {why === "consent" ? (
        <a class="plain" href={`/fencers/${lesson.fencer}/edit`}>
          {_("Note the consent")}
        </a>
      ) : null}
      <button type="button" class="strong" onClick={onOther}>
        {_("Another drill")}
      </button>
    </div>
  );
}

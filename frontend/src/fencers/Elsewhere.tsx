/** One coach and another, somebody or somewhere new, and the day's first cue. */
import type { DrillStory } from "../app/replies";
import { _ } from "../language/i18n";

/** What is not told, or was not yet when a kept reply was fetched, is left out. */
export const Elsewhere = ({ story }: { story: DrillStory }) => (
  <>
    {story.by_giver ? (
      <>
        <h3>{_("One coach and another")}</h3>
        <p data-testid="by-giver">{story.by_giver.words}</p>
      </>
    ) : null}
    {story.strangers ? (
      <>
        <h3>{_("Somebody or somewhere new")}</h3>
        <p data-testid="strangers">
          {[...story.strangers.first, story.strangers.teaches]
            .map((one) => one?.words ?? "")
            .join(" ")}
        </p>
      </>
    ) : null}
    {story.first_cue ? (
      <>
        <h3>{_("The day's first cue")}</h3>
        <p data-testid="first-cue">{story.first_cue.words}</p>
      </>
    ) : null}
  </>
);

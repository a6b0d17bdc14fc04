/** In a browser that forgets: what is unsent is reminded of, and the home screen asked for. */
import { homeAsked, settings } from "../app/settings";
import { lessons, session, sync, unsent } from "../app/state";
import { saveUnsent } from "../app/unsentFile";
import { _, ngettext } from "../language/i18n";
import { HomeScreen } from "../ui/HomeScreen";

/** Sending has been tried and has not worked. */
const HELD_UP = ["away", "signin", "other", "trouble"];

export function Keeping() {
  if (unsent.value > 0 && HELD_UP.includes(sync.value.state)) return <Reminder />;
  const me = session.value?.coach.id;
  const given = lessons.value.some((row) => row.closed && row.coach === me);
  // only once all is sent: the app on the home screen has a store of its own
  if (settings.value.homeAsked || unsent.value > 0 || !given) return null;
  return (
    <section class="card" data-testid="home-screen">
      <h2>{_("Put Cue Ladder on the home screen")}</h2>
      <HomeScreen />
      <button type="button" class="plain" data-testid="home-screen-away" onClick={homeAsked}>
        {_("I have read it")}
      </button>
    </section>
  );
}

const Reminder = () => (
  <section class="card" data-testid="unsent-reminder">
    <h2>{ngettext("%(n)s not sent", "%(n)s not sent", unsent.value)}</h2>
    <p>
      {_(
        "This browser erases what is not sent once seven days pass without a visit. Open Cue Ladder where there is a network before that, or save a file.",
      )}
    </p>
    <button type="button" class="plain" data-testid="reminder-file" onClick={saveUnsent}>
      {_("Save a file of what is not sent")}
    </button>
  </section>
);

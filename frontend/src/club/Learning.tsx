/** What the club's own lessons teach, for head coaches. */
import { useEffect } from "preact/hooks";
import { useAsk, useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import type { Replies } from "../device/api-types";
import { moment } from "../language/dates";
import { _ } from "../language/i18n";
import { Answer, Outcome } from "../ui/Answer";
import { PageHead } from "../ui/SyncPill";
import { LearnedKind } from "./LearnedKind";
import { Numbers } from "./Numbers";
import "./club.css";

const PATH = "/api/club/learning";
/** How often a look that is under way is asked after, in ms. */
const AGAIN = 3000;

type Told = Replies["Learning"];

export function Learning() {
  const asked = useAsk<Told>(PATH);
  const doing = useDoing();
  const running = asked.data?.running === true;
  const { again } = asked;
  useEffect(() => {
    if (!running) return;
    const timer = setInterval(() => void again(), AGAIN);
    return () => clearInterval(timer);
  }, [running, again]);
  const look = () =>
    doing.attempt(async () => {
      await thePhone().api.send("POST", PATH, {});
      await again();
    });
  return (
    <main class="page" data-testid="learning">
      <PageHead title={_("What your lessons teach")} />
      <Answer of={asked}>
        {(told) => (
          <>
            <section class="card" data-testid="learning-look">
              <p>
                {_(
                  "From all marks of the club: how your fencers learn and forget, and whether another rule or another start after breaks would serve them better. Nothing changes by itself.",
                )}
              </p>
              <p class="soft" role="status">
                {told.running
                  ? _("Looking at all lessons; this takes up to a minute or two …")
                  : told.at === null
                    ? _("Nobody has looked yet.")
                    : _("Last looked: %(when)s.", { when: moment(told.at) })}
                {told.trouble
                  ? ` ${_("The last look did not come to an end: try again, or ask whoever looks after the server.")}`
                  : ""}
              </p>
              <button
                type="button"
                class="strong"
                data-testid="learning-again"
                disabled={doing.busy || told.running}
                onClick={() => void look()}
              >
                {_("Look at the lessons now")}
              </button>
              <Outcome of={doing} named="learning" />
            </section>
            {told.kinds.map((kind) => (
              <LearnedKind key={kind.kind} of={kind} again={again} />
            ))}
            {told.kinds.length === 0 ? null : <Numbers at={told.at ?? ""} />}
          </>
        )}
      </Answer>
    </main>
  );
}

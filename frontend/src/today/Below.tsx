/** Everything below the lessons to give; one lazy chunk, to avoid layout shifts. */
import { forgets } from "../app/homeScreen";
import { isObserver } from "../app/state";
import type { Booking } from "../device/types";
import { _ } from "../language/i18n";
import { Where } from "../lesson/where/Where";
import { Cards } from "./Cards";
import { Keeping } from "./Keeping";
import { Others } from "./Others";
import { Watchable } from "./Watchable";

interface Props {
  given: Booking[];
  booked: Set<string>;
}

export const Below = ({ given, booked }: Props) => (
  <>
    {forgets() ? <Keeping /> : null}
    {given.length > 0 ? (
      <section data-testid="given">
        <h2>{_("Given so far")}</h2>
        <Cards of={given} />
      </section>
    ) : null}
    <Watchable />
    <a class="plain" href="/bout" data-testid="to-bout">
      {_("Watch a bout")}
    </a>
    {isObserver() ? null : <Where inLesson={false} />}
    {isObserver() ? null : <Others booked={booked} />}
  </>
);

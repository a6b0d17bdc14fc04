/** What stands below the lessons to give; in one piece, so that no part of it moves another. */
import type { Booking } from "../device/types";
import { laterWords } from "../words.later";
import { Others } from "./Others";
import { Cards, watches } from "./Today";
import { Watchable } from "./Watchable";

interface Props {
  given: Booking[];
  booked: Set<string>;
}

export const Below = ({ given, booked }: Props) => (
  <>
    {given.length > 0 ? (
      <section data-testid="given">
        <h2>{laterWords.today.given}</h2>
        <Cards of={given} />
      </section>
    ) : null}
    <Watchable />
    {watches() ? null : <Others booked={booked} />}
  </>
);

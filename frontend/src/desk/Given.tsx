/** The lessons of today that are over. */
import type { Booking } from "../device/types";
import { laterWords } from "../words.later";
import { Cards } from "./Today";

export const Given = ({ lessons }: { lessons: Booking[] }) => (
  <section data-testid="given">
    <h2>{laterWords.today.given}</h2>
    <Cards of={lessons} />
  </section>
);

/** How the startles at each cue went over the lesson. */
import { _, ngettext } from "../language/i18n";
import { type RungSum, startleCourse } from "./sum";

/** A count, not a claim: how the startles at a cue went, ten cues at a time. */
const courseWords = (startled: boolean[]): string => {
  const course = startleCourse(startled);
  if (course === null) return "";
  const tens = course.tens.join(", ");
  if (course.rest === null) return _("Startled, ten cues at a time: %(tens)s.", { tens });
  const { startles, cues } = course.rest;
  return ngettext(
    "Startled, ten cues at a time: %(tens)s; in the last cue: %(startles)s.",
    "Startled, ten cues at a time: %(tens)s; in the last %(n)s cues: %(startles)s.",
    cues,
    { tens, startles },
  );
};

export function Startles({ rungs }: { rungs: RungSum[] }) {
  return (
    <>
      {rungs
        .filter(({ startled }) => startleCourse(startled) !== null)
        .map(({ cue, startled }) => (
          <p key={cue} data-testid="startles">
            <b>{cue}</b>
            <br />
            {courseWords(startled)}
          </p>
        ))}
    </>
  );
}

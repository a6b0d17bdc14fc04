/** A lesson that cannot go on here: it is not on this phone, or it is another coach's. */
import { lessons, session } from "../state";
import { laterWords } from "../words.later";
import { said } from "../words.observer";
import { sheetWords } from "../words.sheets";

export function NotHere({ lesson }: { lesson: string }) {
  const row = lessons.value.find((one) => one.id === lesson);
  const theirs = row !== undefined && row.coach !== session.value?.coach.id;
  return (
    <main class="page" data-testid="not-here">
      <h1 class="lead">{theirs ? said.watch.theirs : sheetWords.anotherPage}</h1>
      <div class="enter">
        {theirs ? (
          <a class="strong" href={`/watch/${lesson}`}>
            {said.watch.theirsGo}
          </a>
        ) : null}
        <a class="plain" href="/">
          {laterWords.after.toToday}
        </a>
      </div>
    </main>
  );
}

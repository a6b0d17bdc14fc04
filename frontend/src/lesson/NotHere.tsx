/** Shown for a lesson that is not on this phone or is another coach's. */
import { lessons, session } from "../app/state";
import { _ } from "../language/i18n";

export function NotHere({ lesson }: { lesson: string }) {
  const row = lessons.value.find((one) => one.id === lesson);
  const theirs = row !== undefined && row.coach !== session.value?.coach.id;
  return (
    <main class="page" data-testid="not-here">
      <h1 class="lead">
        {theirs
          ? _("This lesson is another coach's. You can watch it and mark along; it stays theirs.")
          : _("This lesson is not on this phone.")}
      </h1>
      <div class="enter">
        {theirs ? (
          <a class="strong" href={`/watch/${lesson}`}>
            {_("Watch it")}
          </a>
        ) : null}
        <a class="plain" href="/">
          {_("To today's lessons")}
        </a>
      </div>
    </main>
  );
}

/** Start, go on with, or look back at a fencer's lesson of today. */
import { useState } from "preact/hooks";
import { thePhone } from "../app/phone";
import type { Part } from "../app/plans";
import { go } from "../app/router";
import { isObserver, lessons, session } from "../app/state";
import type { LessonRow } from "../device/db";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";
import { openLesson } from "../lesson/open";
import { tellUnmarked } from "../lesson/unmarked";
import { lazy } from "../ui/lazy";

const LookBack = lazy<{ row: LessonRow; name: string }>(() =>
  import("./LookBack").then((file) => file.LookBack),
);

const ConsentSheet = lazy<{ fencer: Fencer; onStart: () => void; onClose: () => void }>(() =>
  import("./ConsentSheet").then((file) => file.ConsentSheet),
);

/** This coach's lesson with a fencer today: the open one, else the latest. */
export const lessonOf = (fencer: string) =>
  lessons.value
    .filter((row) => row.fencer === fencer && row.coach === session.value?.coach.id)
    .sort((a, b) => Number(a.closed) - Number(b.closed) || (a.id < b.id ? 1 : -1))[0];

async function start(fencer: string, part: Part | null): Promise<void> {
  try {
    go(`/strip/${await openLesson(fencer, part)}`);
  } catch (error) {
    tellUnmarked(error);
  }
}

export function Enter({ fencer, part }: { fencer: Fencer; part: Part | null }) {
  const row = lessonOf(fencer.id);
  const name = fencer.nickname;
  const here = row && !row.closed && row.device === thePhone().ledger.device;
  const label = row ? _("Start another") : _("Start");
  const [asking, setAsking] = useState(false);
  if (isObserver()) return null;
  return (
    <div class="enter">
      {here ? (
        <a
          class="strong"
          href={`/strip/${row.id}`}
          aria-label={`${_("Go on")}: ${name}`}
          data-testid={`go-on-${fencer.id}`}
        >
          {_("Go on")}
        </a>
      ) : (
        <button
          type="button"
          class={row ? "plain" : "strong"}
          aria-label={`${label}: ${name}`}
          data-testid={`start-${fencer.id}`}
          onClick={() => (fencer.consent == null ? setAsking(true) : start(fencer.id, part))}
        >
          {label}
        </button>
      )}
      {row && !here ? <LookBack row={row} name={name} /> : null}
      {asking ? (
        <ConsentSheet
          fencer={fencer}
          onStart={() => start(fencer.id, part)}
          onClose={() => setAsking(false)}
        />
      ) : null}
    </div>
  );
}

/** Changes of club data that the server refused: corrected, sent again, or given up. */
import { useState } from "preact/hooks";
import { type Edit, fencerIn } from "../device/edits";
import { theEdits, thePhone } from "../phone";
import { edits, fencerOf, session } from "../state";
import { peopleWords } from "../words.people";

const said = peopleWords.refused;

export const reasonsOf = ({ why }: Edit): string =>
  Object.entries(why ?? {})
    .map(([field, reasons]) => `${field} ${reasons.join(", ")}`.trim())
    .join("; ");

export function Refused() {
  const coach = session.value?.coach.id;
  const refused = edits.value.filter((edit) => edit.why && edit.coach === coach);
  if (refused.length === 0) return null;
  return (
    <section class="card" data-testid="edits-refused">
      <h2>{said.title}</h2>
      <p>{said.lead}</p>
      <ul class="rows lined">
        {refused.map((edit) => (
          <One key={edit.id} edit={edit} />
        ))}
      </ul>
    </section>
  );
}

function One({ edit }: { edit: Edit }) {
  const [sure, setSure] = useState(false);
  const again = async () => {
    await (await theEdits()).again(edit.id);
    await thePhone().queue.kick("all");
  };
  const drop = async () => (await theEdits()).drop(edit.id);
  const fencer = fencerIn(edit);
  const mendable = fencer !== null && (edit.method === "POST" || fencerOf(fencer) !== undefined);
  return (
    <li>
      <span>
        {edit.about} <small>{reasonsOf(edit)}</small>
      </span>
      {sure ? (
        <div class="sure">
          <p>{said.sure}</p>
          <div class="enter">
            <button type="button" class="plain" onClick={drop}>
              {said.yes}
            </button>
            <button type="button" class="plain" onClick={() => setSure(false)}>
              {peopleWords.cancel}
            </button>
          </div>
        </div>
      ) : (
        <div class="row-ends">
          {mendable ? (
            <a
              class="quiet"
              href={`/fencers/${fencer}/edit`}
              aria-label={said.of(said.correct, edit.about)}
            >
              {said.correct}
            </a>
          ) : null}
          <button
            type="button"
            class="quiet"
            aria-label={said.of(said.again, edit.about)}
            onClick={again}
          >
            {said.again}
          </button>
          <button
            type="button"
            class="quiet"
            aria-label={said.of(said.drop, edit.about)}
            onClick={() => setSure(true)}
          >
            {said.drop}
          </button>
        </div>
      )}
    </li>
  );
}

/** Edits the server refused: correct, resend or discard them. */
import { useState } from "preact/hooks";
import { theEdits, thePhone } from "../app/phone";
import { edits, fencerOf, session } from "../app/state";
import { type Edit, fencerIn } from "../device/edit";
import { _ } from "../language/i18n";

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
      <h2>{_("Changes the server refused")}</h2>
      <p>{_("They are kept here until you correct them or give them up.")}</p>
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
          <p>{_("Give this change up? What was entered is gone then.")}</p>
          <div class="enter">
            <button type="button" class="plain" onClick={drop}>
              {_("Yes, give it up")}
            </button>
            <button type="button" class="plain" onClick={() => setSure(false)}>
              {_("Cancel")}
            </button>
          </div>
        </div>
      ) : (
        <div class="row-ends">
          {mendable ? (
            <a
              class="quiet"
              href={`/fencers/${fencer}/edit`}
              aria-label={_("%(what)s: %(name)s", { what: _("Correct it"), name: edit.about })}
            >
              {_("Correct it")}
            </a>
          ) : null}
          <button
            type="button"
            class="quiet"
            aria-label={_("%(what)s: %(name)s", { what: _("Send again"), name: edit.about })}
            onClick={again}
          >
            {_("Send again")}
          </button>
          <button
            type="button"
            class="quiet"
            aria-label={_("%(what)s: %(name)s", { what: _("Give up"), name: edit.about })}
            onClick={() => setSure(true)}
          >
            {_("Give up")}
          </button>
        </div>
      )}
    </li>
  );
}

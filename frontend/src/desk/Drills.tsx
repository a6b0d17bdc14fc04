/** The club's drills, to read. */

import { PageHead } from "../SyncPill";
import { club } from "../state";
import { words } from "../words";

export function Drills() {
  const drills = (club.value?.drills ?? []).filter((drill) => !drill.archived);
  return (
    <main class="page">
      <PageHead title={words.drills.title} />
      <p class="soft">{words.drills.rulesLead}</p>
      <p>
        <a class="plain" href="/rules" data-testid="to-rules">
          {words.drills.rules}
        </a>
      </p>
      {drills.length === 0 ? <p class="lead">{words.drills.none}</p> : null}
      <ul class="rows">
        {drills.map((drill) => (
          <li key={drill.id}>
            <details>
              <summary>
                {drill.name}
                <small>
                  {words.kinds[drill.kind]} ·{" "}
                  {drill.weapon.map((weapon) => words.weapons[weapon]).join(", ")}
                </small>
              </summary>
              <p>{drill.purpose}</p>
              <h2>{words.strip.how}</h2>
              <p>{drill.how}</p>
              <h2>{words.drills.safety}</h2>
              <p>{drill.safety}</p>
              <h2>{words.after.alone}</h2>
              <p>{drill.alone}</p>
            </details>
          </li>
        ))}
      </ul>
    </main>
  );
}

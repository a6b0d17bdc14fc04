/** Today's bouts on this phone: correct one, or take it back. */
import { useEffect, useState } from "preact/hooks";
import { go } from "../app/router";
import { drillOf, fencerOf } from "../app/state";
import { _ } from "../language/i18n";
import { tellUnmarked } from "../lesson/unmarked";
import { draft, type Kept, keptToday, takeBack, takeUp } from "./draft";
import { countsWords } from "./words";

export function KeptBouts({ again }: { again: string }) {
  const [bouts, setBouts] = useState<Kept[]>([]);
  const load = () => keptToday().then(setBouts, console.warn);
  useEffect(() => {
    void load();
  }, [again]);
  const tapping = (draft.value?.taps.length ?? 0) > 0;
  if (bouts.length === 0) return null;
  return (
    <section data-testid="kept-bouts">
      <h2>{_("Kept today")}</h2>
      <ul class="rows lined">
        {bouts.map((bout) => {
          const name = fencerOf(bout.fencer)?.nickname ?? "";
          return (
            <li key={bout.id} data-testid="kept-bout">
              <span>
                {name} <small>{drillOf(bout.drill)?.name}</small>
                <small>{countsWords(bout.counts)}</small>
              </span>
              <button
                type="button"
                class="quiet"
                // what is being tapped would be lost
                disabled={tapping || draft.value?.of === bout.id}
                aria-label={_("%(what)s: %(name)s", { what: _("Correct it"), name })}
                onClick={() =>
                  takeUp(bout).then(() => go(`/bout/${bout.fencer}`, true), tellUnmarked)
                }
              >
                {_("Correct it")}
              </button>
              <button
                type="button"
                class="quiet"
                disabled={draft.value?.of === bout.id}
                aria-label={_("Take back the bout of %(name)s", { name })}
                onClick={() => takeBack(bout).then(load, tellUnmarked)}
              >
                {_("Take back")}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

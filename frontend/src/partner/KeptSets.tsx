/** The sets by partners that were entered on this phone: correct one, or take it back. */
import { useEffect, useState } from "preact/hooks";
import { drillOf, fencerOf } from "../app/state";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { tellUnmarked } from "../lesson/unmarked";
import { type Kept, keptLately, takeBack, takeUp } from "./draft";

export function KeptSets({ again }: { again: string }) {
  const [sets, setSets] = useState<Kept[]>([]);
  const load = () => keptLately().then(setSets, console.warn);
  useEffect(() => {
    void load();
  }, [again]);
  if (sets.length === 0) return null;
  return (
    <section data-testid="kept-sets">
      <h2>{_("Entered on this phone")}</h2>
      <ul class="rows lined">
        {sets.map((set) => {
          const name = fencerOf(set.fencer)?.nickname ?? "";
          const right = set.ticks.replaceAll(/[^1]/g, "").length;
          const given = set.ticks.replaceAll("-", "").length;
          return (
            <li key={set.lesson} data-testid="kept-set">
              <span>
                {name} <small>{drillOf(set.drill)?.name}</small>
                <small>
                  {_("%(day)s: %(right)s of %(given)s correct", {
                    day: dayWords(set.day),
                    right,
                    given,
                  })}
                </small>
              </span>
              <button
                type="button"
                class="quiet"
                aria-label={_("%(what)s: %(name)s", { what: _("Correct it"), name })}
                onClick={() => takeUp(set).catch(tellUnmarked)}
              >
                {_("Correct it")}
              </button>
              <button
                type="button"
                class="quiet"
                aria-label={_("Take back the set of %(name)s", { name })}
                onClick={() => takeBack(set).then(load, tellUnmarked)}
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

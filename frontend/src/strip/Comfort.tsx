/** How comfortable the fencer feels, 0 to 10, asked before and after. */
import { words } from "../words";

interface Props {
  when: "before" | "after";
  value: number | null;
  onRate: (value: number) => void;
}

export function Comfort({ when, value, onRate }: Props) {
  const title = when === "before" ? words.strip.comfortBefore : words.strip.comfortAfter;
  return (
    <fieldset class="comfort" data-testid={`comfort-${when}`}>
      <legend>{title}</legend>
      <p class="soft">{words.strip.comfortLead}</p>
      <div>
        {Array.from({ length: 11 }, (_, points) => (
          <button
            type="button"
            key={points}
            aria-pressed={value === points}
            onClick={() => onRate(points)}
          >
            {points}
          </button>
        ))}
      </div>
    </fieldset>
  );
}

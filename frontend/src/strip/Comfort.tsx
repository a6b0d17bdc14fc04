/** How comfortable the fencer feels, 0 to 10, asked before and after. */
import { sheetWords } from "../words.sheets";

interface Props {
  when: "before" | "after";
  value: number | null;
  onRate: (value: number) => void;
}

export function Comfort({ when, value, onRate }: Props) {
  const title = when === "before" ? sheetWords.comfortBefore : sheetWords.comfortAfter;
  return (
    <fieldset class="comfort" data-testid={`comfort-${when}`}>
      <legend>{title}</legend>
      <p class="soft">{sheetWords.comfortLead}</p>
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

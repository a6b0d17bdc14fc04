/** The fencer's comfort, 0 to 10, before or after the lesson. */
import { _ } from "../language/i18n";

interface Props {
  when: "before" | "after";
  value: number | null;
  onRate: (value: number) => void;
}

export function Comfort({ when, value, onRate }: Props) {
  const title = when === "before" ? _("Comfort before") : _("Comfort after");
  return (
    <fieldset class="comfort" data-testid={`comfort-${when}`}>
      <legend>{title}</legend>
      <p class="soft">
        {_("Ask the fencer: how comfortable do you feel? 0 not at all, 10 entirely.")}
      </p>
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

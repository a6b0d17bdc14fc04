/** Safety points to confirm before heat drills, once per coach. */
import { _ } from "../language/i18n";
import { Sheet } from "../ui/Sheet";

const POINTS = [
  _("Mask, jacket, under-plastron, breeches and glove are on, and the blades are inspected."),
  _("You have agreed a stop word with the fencer."),
  _("The fencer agrees to shouting and stamping; for a minor, the guardian does too."),
  _("Stop at once on pain, dizziness, trouble with breathing or distress."),
  _(
    "This is sport training, not a treatment of anxiety or trauma: for those, refer to a licensed practitioner.",
  ),
  _("Local rules, the federation's and your club's safeguarding policy come first."),
];

interface Props {
  onAgree: () => void;
  onClose: () => void;
}

export function Care({ onAgree, onClose }: Props) {
  return (
    <Sheet title={_("Before loud, sudden or hard cues")} onClose={onClose}>
      <p>{_("Loud, sudden or hard cues need care. You confirm this once.")}</p>
      <ul class="care" data-testid="care">
        {POINTS.map((point) => (
          <li key={point}>{point}</li>
        ))}
      </ul>
      <button type="button" class="strong" data-testid="care-agree" onClick={onAgree}>
        {_("I have read this and keep to it")}
      </button>
      <button type="button" class="plain" onClick={onClose}>
        {_("Not now")}
      </button>
    </Sheet>
  );
}

/** What must be settled before loud, sudden or hard cues; confirmed once by each coach. */
import { Sheet } from "../Sheet";
import { words } from "../words";

interface Props {
  onAgree: () => void;
  onClose: () => void;
}

export function Care({ onAgree, onClose }: Props) {
  return (
    <Sheet title={words.care.title} onClose={onClose}>
      <p>{words.care.lead}</p>
      <ul class="care" data-testid="care">
        {words.care.points.map((point) => (
          <li key={point}>{point}</li>
        ))}
      </ul>
      <button type="button" class="strong" data-testid="care-agree" onClick={onAgree}>
        {words.care.agree}
      </button>
      <button type="button" class="plain" onClick={onClose}>
        {words.care.notNow}
      </button>
    </Sheet>
  );
}

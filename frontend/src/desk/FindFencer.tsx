/** A field that finds a fencer by what is typed of the name, and says when nobody is found. */
import { eveningWords as said } from "../words.evenings";

interface Props {
  sought: string;
  /** How many were found. */
  found: number;
  onSeek: (sought: string) => void;
  "data-testid": string;
}

export const FindFencer = ({ sought, found, onSeek, ...more }: Props) => (
  <>
    <label class="field">
      <span class="unseen">{said.find}</span>
      <input
        type="search"
        placeholder={said.find}
        value={sought}
        onInput={(event) => onSeek(event.currentTarget.value)}
        {...more}
      />
    </label>
    {found === 0 && sought.trim() !== "" ? <p class="soft">{said.nobody}</p> : null}
  </>
);

/** Search field for fencers, and the rows found. */
import type { ComponentChildren } from "preact";
import { WEAPONS } from "../app/vocabulary";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";

interface Props {
  sought: string;
  /** Number of results. */
  found: number;
  onSeek: (sought: string) => void;
  "data-testid": string;
}

export const FindFencer = ({ sought, found, onSeek, ...more }: Props) => (
  <>
    <label class="field">
      <span class="unseen">{_("Find a fencer")}</span>
      <input
        type="search"
        placeholder={_("Find a fencer")}
        value={sought}
        onInput={(event) => onSeek(event.currentTarget.value)}
        {...more}
      />
    </label>
    {found === 0 && sought.trim() !== "" ? <p class="soft">{_("Nobody of that name.")}</p> : null}
  </>
);

interface RowsProps {
  of: readonly Fencer[];
  /** What may be done with one. */
  children: (fencer: Fencer) => ComponentChildren;
}

export const FencerRows = ({ of, children }: RowsProps) => (
  <ul class="rows">
    {of.map((fencer) => (
      <li key={fencer.id} data-testid={`fencer-${fencer.id}`}>
        <span>
          {fencer.nickname} <small>{WEAPONS[fencer.weapon]}</small>
        </span>
        {children(fencer)}
      </li>
    ))}
  </ul>
);

/** A fold whose content is made when it is first opened: the screen stands sooner. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";

interface Props {
  class: string;
  summary: ComponentChildren;
  open?: boolean;
  "data-testid"?: string;
  children: () => ComponentChildren;
}

export function Fold({ summary, open = false, children, ...more }: Props) {
  const [made, setMade] = useState(open);
  return (
    <details {...more} open={open} onToggle={() => setMade(true)}>
      <summary>{summary}</summary>
      {open || made ? children() : null}
    </details>
  );
}

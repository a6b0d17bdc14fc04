/** Disclosure that renders its content only once opened. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";

interface Props {
  class: string;
  summary: ComponentChildren;
  open?: boolean;
  "data-testid"?: string;
  children: () => ComponentChildren;
}

export function Disclosure({ summary, open = false, children, ...more }: Props) {
  const [made, setMade] = useState(open);
  return (
    <details {...more} open={open} onToggle={() => setMade(true)}>
      <summary>{summary}</summary>
      {open || made ? children() : null}
    </details>
  );
}

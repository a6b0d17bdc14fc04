/** Figures that change with each mark, in a box of their own: nothing around them is laid out anew. */
export function Steady({ text }: { text: string }) {
  // digits are all as wide as `ch`, a space is about half of it
  const spaces = text.split(" ").length - 1;
  return (
    <i class="steady" style={{ width: `${text.length - spaces / 2}ch` }}>
      {text}
    </i>
  );
}

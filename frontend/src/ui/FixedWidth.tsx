/** Fixed-width box for changing digits; avoids reflow. */
export function FixedWidth({ text }: { text: string }) {
  // tabular digits are 1ch wide, a space about half
  const spaces = text.split(" ").length - 1;
  return (
    <i class="fixed-width" style={{ width: `${text.length - spaces / 2}ch` }}>
      {text}
    </i>
  );
}

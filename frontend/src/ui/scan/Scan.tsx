/** An address as a QR code (ISO/IEC 18004), for another phone's camera. */
import { encode } from "uqr";
import "./scan.css";

export function Scan({ address, label }: { address: string; label: string }) {
  const { data, size } = encode(address, { border: 4, ecc: "M" });
  const d = data.flatMap((line, y) => line.flatMap((on, x) => (on ? [`M${x} ${y}h1v1h-1z`] : [])));
  return (
    <svg
      class="picture"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={label}
      shape-rendering="crispEdges"
      data-testid="picture"
      data-address={address}
    >
      <rect width={size} height={size} fill="#fff" />
      <path d={d.join("")} fill="#000" />
    </svg>
  );
}

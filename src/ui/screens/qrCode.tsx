// A QR symbol as SVG with the quiet zone of four modules that ISO/IEC 18004 asks for. The text is taken as it is.
import { encode } from 'uqr';

export function QrCode({ text, sizeMm, name }: { text: string; sizeMm: number; name?: string }) {
  const { data, size } = encode(text, { ecc: 'M', border: 4 });
  const path = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : []))).join('');
  return (
    <svg
      viewBox={`0 0 ${size} ${size}`}
      style={{ width: `${sizeMm}mm`, height: `${sizeMm}mm` }}
      role="img"
      aria-label={name ?? `Code of ${text}`}
      shape-rendering="crispEdges"
    >
      <rect width={size} height={size} fill="#ffffff" />
      <path d={path} fill="#000000" />
    </svg>
  );
}

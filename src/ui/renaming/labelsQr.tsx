// One QR symbol as SVG elements after ISO/IEC 18004: dark on light at any theme, with the quiet zone of four modules.
import { encode } from 'uqr';

const QUIET = 4;

/** Modules as one path, so that a page of hundreds stays light. */
export function qrPath(text: string): { size: number; path: string } {
  const { data } = encode(text, { ecc: 'M', border: QUIET });
  let path = '';
  data.forEach((row, y) => {
    for (let x = 0; x < row.length; x += 1) {
      if (!row[x]) continue;
      let end = x;
      while (row[end + 1]) end += 1;
      path += `M${x} ${y}h${end - x + 1}v1h-${end - x + 1}z`;
      x = end;
    }
  });
  return { size: data.length, path };
}

export function Qr(props: { text: string; title: string }) {
  const { size, path } = qrPath(props.text);
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={props.title} shape-rendering="crispEdges">
      <rect class="qr-light" width={size} height={size} />
      <path class="qr-dark" d={path} />
    </svg>
  );
}

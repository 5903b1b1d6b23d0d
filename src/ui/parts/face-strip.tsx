// A whole unit to scale, 482.6 mm by U times 44.45 mm, with ears and holes and every jack as a small outline; a
// detail circle stands round the current jack. It shows where to look, never what a label says.
import { useRef } from 'preact/hooks';
import { columnX, PANEL_MM, UNIT_MM } from './geometry.ts';
import { type FaceProps, type JackMark, seenRows, visibleMark } from './marks.ts';
import { SvgMark } from './svg-marks.tsx';
import { useWidth } from './use-width.ts';

/** Millimetres from one jack to the next where there is room. Common practice, no source. */
const PITCH_MM = 14;
const EAR_MM = 16;

interface Placed {
  jack: JackMark;
  x: number;
  y: number;
  /** The row stands in the lower half, so its mark hangs below the strip. */
  low: boolean;
}

function placeJacks(rows: JackMark[][], left: number, right: number, height: number, scale: number) {
  const columns = Math.max(1, ...rows.map((row) => row.length));
  const group = columns > 8 ? Math.ceil(columns / Math.ceil(columns / 8)) : columns;
  const gaps = Math.ceil(columns / group) - 1;
  const pitch = Math.min(PITCH_MM * scale * 1.05, (right - left) / (columns + gaps * 0.5));
  const size = Math.min(pitch * 0.86, (height / rows.length) * 0.62, PITCH_MM * scale);
  const step = Math.min(height / rows.length, size * 1.5);
  const top = (height - step * rows.length) / 2;
  const placed: Placed[] = rows.flatMap((row, r) =>
    row.map((jack, c) => ({
      jack,
      x: left + columnX(c, pitch, group, pitch * 0.5) + pitch / 2,
      y: top + step * (r + 0.5),
      low: rows.length > 1 && r >= rows.length / 2,
    })),
  );
  return { placed, size };
}

export function FaceStrip(props: FaceProps) {
  const ref = useRef<HTMLDivElement>(null);
  const width = useWidth(ref);
  const rows = seenRows(props.rows, props.mirrored ?? false).map((row) =>
    row.map((jack) => visibleMark(jack, props.blind ?? false)),
  );
  const heightU = props.heightU ?? 1;
  const w = width - 2;
  const scale = w / PANEL_MM;
  const h = UNIT_MM * heightU * scale;
  const shortName = props.unitLabel.length <= 8;
  const ear = EAR_MM * scale;
  const left = shortName ? ear + 12 + props.unitLabel.length * 9.6 + 12 : ear + 8;
  const { placed, size } = placeJacks(rows, left, w - ear - 6, h, scale);
  const marks = placed.filter((p) => p.jack.mark !== undefined && p.jack.mark !== 'as-planned');
  const above = marks.some((p) => !p.low) ? 12 : 2;
  const below = marks.some((p) => p.low) ? 12 : 2;
  const now = placed.find((p) => p.jack.place === props.current);
  const r = Math.max(7.5, size * 0.85);
  const captionY = above + h + below + 12;
  const total = now ? captionY + 6 : above + h + below;
  const caption = now && `${now.jack.label} now, enlarged below`;
  const captionRight = now !== undefined && now.x > w * 0.5;
  return (
    <div class="face-strip" ref={ref}>
      {!shortName && <p class="face-name ident">{props.unitLabel}</p>}
      <svg
        class="drawing"
        viewBox={`0 0 ${width} ${total}`}
        style={{ height: `${total / 16}rem` }}
        aria-hidden="true"
        focusable="false"
      >
        <g transform={`translate(1 ${above})`}>
          <rect class="ink-2" width={w} height={h} />
          <path class="rule" d={`M${ear} 0V${h}M${w - ear} 0V${h}`} />
          {Array.from({ length: heightU }, (_, u) =>
            [0.17, 0.83].map((at) => (
              <g key={`${u}-${at}`} class="rule">
                <ellipse cx={ear / 2} cy={(u + at) * (h / heightU)} rx="2.6" ry="1.7" />
                <ellipse cx={w - ear / 2} cy={(u + at) * (h / heightU)} rx="2.6" ry="1.7" />
              </g>
            )),
          )}
          {shortName && (
            <text class="drawing-ident" x={ear + 10} y={h / 2 + 5.4}>
              {props.unitLabel}
            </text>
          )}
          {placed.map((p) => (
            <TinyJack key={p.jack.place} {...p} size={size} />
          ))}
          {marks.map((p) => (
            <SvgMark key={p.jack.place} x={p.x} y={p.low ? h + 6 : -6} size={8} mark={p.jack.mark!} />
          ))}
          {now && <circle class="detail-circle" cx={now.x} cy={now.y} r={r} />}
        </g>
        {now && (
          <>
            <path
              class="leader"
              d={
                captionRight
                  ? `M${now.x - r * 0.4} ${above + now.y + r}L${now.x - 8} ${captionY - 4}H${now.x - 14}`
                  : `M${now.x + 1 + r * 0.4} ${above + now.y + r}L${now.x + 10} ${captionY - 4}H${now.x + 16}`
              }
            />
            <text
              class="drawing-note"
              x={captionRight ? now.x - 18 : now.x + 20}
              y={captionY}
              text-anchor={captionRight ? 'end' : 'start'}
            >
              {caption}
            </text>
          </>
        )}
      </svg>
    </div>
  );
}

function TinyJack(props: Placed & { size: number }) {
  const { jack, x, y, size } = props;
  const unseen = jack.state === 'unseen' || jack.state === 'could-not-see';
  const half = size / 2;
  return (
    <g class={unseen ? 'tiny-unseen' : `tiny-seen${size < 7 ? ' tiny-fine' : ''}`}>
      <rect x={x - half} y={y - half} width={size} height={size} />
      {!unseen && jack.state !== 'empty' && (
        <rect class="tiny-plug" x={x - half * 0.55} y={y - half * 0.55} width={size * 0.55} height={size * 0.55} />
      )}
      {jack.state === 'could-not-see' && <path d={`M${x - half} ${y + half}L${x + half} ${y - half}`} />}
    </g>
  );
}

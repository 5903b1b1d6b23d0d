// The face of a row sweep: every jack big enough to be touched, one closed line round the range, marks beneath. A
// face wider than twelve columns is folded into bands, each as wide as the sheet.
import { useRef } from 'preact/hooks';
import { labelToBox } from '../walk/walkState.ts';
import { outlineLoops, pathOf } from './geometry.ts';
import { JackButtons, type Spot } from './jack-buttons.tsx';
import { type FaceProps, inNumberOrder, type JackMark, rangePlaces, seenRows, visibleMark } from './marks.ts';
import { Socket } from './socket.tsx';
import { SvgMark } from './svg-marks.tsx';
import { useWidth } from './use-width.ts';

const PITCH = 28;
const ROW = 70;
const PAD = 5;

/** What all names of the face begin with, so that it need not be written twelve times. */
function sharedHead(labels: string[]): number {
  const first = labels[0] ?? '';
  let n = 0;
  while (n < first.length && !/\d/.test(first[n]!) && labels.every((l) => l[n] === first[n])) n++;
  return labels.every((l) => l.length > n) ? n : 0;
}

export function SweepFace(props: FaceProps) {
  const ref = useRef<HTMLDivElement>(null);
  const width = useWidth(ref);
  const blind = props.blind ?? false;
  const rows = seenRows(props.rows, props.mirrored ?? false).map((row) => row.map((jack) => visibleMark(jack, blind)));
  if (rows.every((row) => row.length === 0)) return null;
  const chosen = props.range ? new Set(rangePlaces(props.rows, props.range)) : undefined;
  const { head, bands, height } = layBands(rows, width);
  const spots = bands.flatMap((band) => band.spots);
  const ends = spots.filter((s) => s.jack.place === props.range?.first || s.jack.place === props.range?.last);
  const now = spots.filter((s) => s.jack.place === props.current);
  return (
    <div class="sweep-face">
      <FaceName unit={props.unitLabel} jacks={inNumberOrder(rows)} />
      <div class="sweep-drawing" ref={ref}>
        <svg
          class="drawing"
          viewBox={`0 0 ${width} ${height}`}
          style={{ height: `${height / 16}rem` }}
          aria-hidden="true"
          focusable="false"
        >
          {bands.map((band, i) => (
            <BandFrame key={i} band={band} chosen={chosen} />
          ))}
          {spots.map((s) => (
            <SweepJack
              key={s.jack.place}
              spot={s}
              head={head}
              low={isLow(rows, s.jack)}
              strong={chosen?.has(s.jack.place) ?? false}
            />
          ))}
          {[...ends, ...now].map((s) => (
            <circle
              key={`c${s.jack.place}`}
              class="detail-circle"
              cx={s.x + s.width / 2}
              cy={s.y + (isLow(rows, s.jack) ? 29 : 41)}
              r={17}
            />
          ))}
        </svg>
        <JackButtons
          spots={spots}
          width={width}
          height={height}
          current={props.current}
          blind={blind}
          chosen={chosen}
          onPress={props.onPress}
        />
      </div>
    </div>
  );
}

interface Band {
  top: number;
  height: number;
  /** Width of a jack. */
  step: number;
  rows: JackMark[][];
  spots: Spot[];
}

/** The columns folded into bands, in CSS pixels; `head` is how many characters all names begin with. */
function layBands(rows: JackMark[][], width: number): { head: number; bands: Band[]; height: number } {
  const columns = Math.max(...rows.map((row) => row.length));
  const head = sharedHead(rows.flat().map((jack) => jack.label));
  const longest = Math.max(...rows.flat().map((jack) => labelToBox(jack.label.slice(head)).length));
  const pitch = Math.max(PITCH, longest * 8 + 6);
  const fitting = Math.max(1, Math.min(12, Math.floor((width - 2 * PAD - 2) / pitch)));
  const many = Math.ceil(columns / fitting);
  // Bands of one width: two columns left over would stand alone beneath.
  const perBand = Math.ceil(columns / many);
  const step = Math.min((width - 2 * PAD - 2) / perBand, pitch * 1.6);
  const height = rows.length * ROW + 12;
  const bands = Array.from({ length: many }, (_, b): Band => {
    const top = 1 + b * (height + 10);
    const part = rows.map((row) => row.slice(b * perBand, (b + 1) * perBand));
    const spots = part.flatMap((row, r) =>
      row.map((jack, c) => ({ jack, x: 1 + PAD + c * step, y: top + 6 + r * ROW, width: step, height: ROW })),
    );
    return { top, height, step, rows: part, spots };
  });
  return { head, bands, height: many * (height + 10) - 10 + 2 };
}

/** The frame of a band, and the line round what is chosen of it. */
function BandFrame({ band, chosen }: { band: Band; chosen: ReadonlySet<string> | undefined }) {
  const { top, height, step, rows } = band;
  const wide = Math.max(...rows.map((row) => row.length));
  const loops = chosen ? outlineLoops((c, r) => chosen.has(rows[r]?.[c]?.place ?? ''), wide, rows.length) : [];
  return (
    <g>
      <rect class="ink-15" x={1} y={top} width={wide * step + 2 * PAD} height={height} />
      {loops.map((loop, i) => (
        <path
          key={i}
          class="range-line"
          d={pathOf(
            loop.map(([x, y]) => [1 + PAD + x * step, top + 6 + y * ROW] as const),
            true,
          )}
        />
      ))}
    </g>
  );
}

function FaceName({ unit, jacks }: { unit: string; jacks: readonly JackMark[] }) {
  const [first, ...more] = jacks;
  const last = more.at(-1);
  return (
    <p class="face-name">
      <span class="ident">{unit}</span>
      {first && last && (
        <>
          , <span class="ident">{first.label}</span> to <span class="ident">{last.label}</span>
        </>
      )}
    </p>
  );
}

function isLow(rows: JackMark[][], jack: JackMark): boolean {
  return rows.length > 1 && (rows.at(-1) ?? []).some((j) => j.place === jack.place);
}

function SweepJack(props: { spot: Spot; head: number; low: boolean; strong: boolean }) {
  const { jack, x, y, width } = props.spot;
  const mid = x + width / 2;
  return (
    <g>
      <text
        class={`drawing-ident drawing-small${props.strong ? ' drawing-strong' : ''}`}
        x={mid}
        y={props.low ? y + 64 : y + 18}
        text-anchor="middle"
      >
        {labelToBox(jack.label.slice(props.head))}
      </text>
      <Socket
        x={mid - 12}
        y={props.low ? y + 19 : y + 31}
        width={24}
        connector={jack.connector}
        state={jack.state}
        upsideDown={jack.upsideDown}
      />
      {jack.mark !== undefined && <SvgMark x={mid} y={props.low ? y + 10 : y + 60} size={9.5} mark={jack.mark} />}
    </g>
  );
}

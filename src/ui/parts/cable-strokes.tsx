// A whole audit as strokes, read at a glance: one stroke a cable (from end above, to end below), or above 60 one
// stroke a jack on a base line. The words and numbers beside it are the caller's, from the same count.
import { useRef } from 'preact/hooks';
import { seriesOf } from './geometry.ts';
import type { CableStroke, EndState, JackStroke } from './marks.ts';
import { useWidth } from './use-width.ts';

const TOP = 6;
const BOTTOM = 28;

/** The x of each stroke in plan order, with a gap where the number series changes. */
export function strokePositions(
  labels: readonly string[],
  width: number,
): { xs: number[]; starts: number[]; pitch: number } {
  const starts = labels.flatMap((label, i) => (i === 0 || seriesOf(label) !== seriesOf(labels[i - 1]!) ? [i] : []));
  const gap = 0.8;
  const units = labels.length + (starts.length - 1) * gap;
  const pitch = Math.min(11, (width - 8) / Math.max(1, units));
  let series = -1;
  const xs = labels.map((_, i) => {
    if (starts.includes(i)) series++;
    return 4 + (i + 0.5 + Math.max(0, series) * gap) * pitch - pitch / 2;
  });
  return { xs, starts, pitch };
}

export function CableStrokes(props: { cables: readonly CableStroke[]; label: string }) {
  const ref = useRef<HTMLDivElement>(null);
  const width = useWidth(ref);
  const { xs, starts, pitch } = strokePositions(
    props.cables.map((c) => c.label),
    width,
  );
  const r = Math.min(3, pitch * 0.34);
  let lastEnd = -10;
  const heads = starts.flatMap((i) => {
    const full = props.cables[i]!.label;
    const x = xs[i]! - r;
    const next = starts[starts.indexOf(i) + 1];
    const room = (next === undefined ? width : xs[next]! - r) - x;
    const text = full.length * 7.5 <= room ? full : full.slice(0, 1);
    if (x < lastEnd + 2) return [];
    lastEnd = x + text.length * 7.5;
    return [{ i, x, text }];
  });
  return (
    <div class="strokes" ref={ref}>
      <svg
        class="drawing"
        viewBox={`0 0 ${width} 44`}
        style={{ height: '2.75rem' }}
        role="img"
        aria-label={props.label}
      >
        {props.cables.map((cable, i) => (
          <Stroke key={cable.id} cable={cable} x={xs[i]!} r={r} />
        ))}
        {heads.map((head) => (
          <text key={head.i} class="drawing-note drawing-mono" x={head.x} y={42}>
            {head.text}
          </text>
        ))}
      </svg>
    </div>
  );
}

function Stroke(props: { cable: CableStroke; x: number; r: number }) {
  const { cable, x, r } = props;
  if (cable.leftOut) return <path class="stroke-out" d={`M${x - r} ${BOTTOM}L${x + r} ${TOP}`} />;
  const both = cable.from !== 'not-seen' && cable.to !== 'not-seen';
  return (
    <g>
      <path class={both ? 'stroke-both' : 'stroke-one'} d={`M${x} ${TOP + r}V${BOTTOM - r}`} />
      <End state={cable.from} x={x} y={TOP} r={r} />
      <End state={cable.to} x={x} y={BOTTOM} r={r} />
    </g>
  );
}

function End(props: { state: EndState; x: number; y: number; r: number }) {
  const { x, y, r } = props;
  if (props.state === 'as-planned') return <circle class="end-seen" cx={x} cy={y} r={r} />;
  if (props.state === 'not-seen') return <circle class="end-open" cx={x} cy={y} r={r} />;
  const k = r * 1.05;
  if (props.state === 'undecided') return <path class="end-undecided" d={diamond(x, y, k * 1.3)} />;
  return <path class="end-differs" d={`M${x - k} ${y - k}L${x + k} ${y + k}M${x + k} ${y - k}L${x - k} ${y + k}`} />;
}

function diamond(x: number, y: number, r: number): string {
  return `M${x.toFixed(2)} ${(y - r).toFixed(2)}l${r} ${r}l${-r} ${r}l${-r} ${-r}Z`;
}

const LINES_AT_MOST = 6;

const WORST_FIRST = ['differs', 'undecided', 'not-seen'] as const;

/** Several jacks share a stroke when they are too many; the worst of them is drawn. */
export function pooledStrokes(
  jacks: readonly JackStroke[],
  room: number,
): { strokes: JackStroke['state'][]; each: number } {
  const each = Math.max(1, Math.ceil(jacks.length / room));
  const strokes: JackStroke['state'][] = [];
  for (let i = 0; i < jacks.length; i += each) {
    const part = jacks.slice(i, i + each);
    const has = (state: JackStroke['state']) => part.some((jack) => jack.state === state);
    strokes.push(WORST_FIRST.find(has) ?? 'as-planned');
  }
  return { strokes, each };
}

/** One stroke per jack in walking order: tall red with knot differs, short grey is not seen. */
export function JackStrokes(props: { jacks: readonly JackStroke[]; label: string }) {
  const ref = useRef<HTMLDivElement>(null);
  const width = useWidth(ref);
  const perLine = Math.max(20, Math.floor((width - 4) / 2.9));
  const { strokes, each } = pooledStrokes(props.jacks, perLine * LINES_AT_MOST);
  const lines = Math.max(1, Math.ceil(strokes.length / perLine));
  const pitch = lines > 1 ? (width - 4) / perLine : Math.min(6, (width - 4) / Math.max(1, strokes.length));
  const lineH = 26;
  const height = lines * lineH;
  const path: Record<EndState, string> = { 'as-planned': '', differs: '', undecided: '', 'not-seen': '' };
  let knots = '';
  let diamonds = '';
  strokes.forEach((state, i) => {
    const x = 2 + ((i % perLine) + 0.5) * pitch;
    const base = (Math.floor(i / perLine) + 1) * lineH - 2;
    const drawn = state === 'said' ? 'as-planned' : state;
    const tall = drawn === 'not-seen' ? 4 : drawn === 'as-planned' ? 12 : 18;
    path[drawn] += `M${x.toFixed(2)} ${base}v${-tall}`;
    if (state === 'differs')
      knots += `M${(x - 2.4).toFixed(2)} ${base - 22.4}l4.8 4.8M${(x + 2.4).toFixed(2)} ${base - 22.4}l-4.8 4.8`;
    if (state === 'undecided') diamonds += diamond(x, base - 20, 3);
  });
  const bases = Array.from({ length: lines }, (_, l) => `M0 ${(l + 1) * lineH - 1.5}H${width}`).join('');
  return (
    <div class="strokes" ref={ref}>
      <svg
        class="drawing"
        viewBox={`0 0 ${width} ${height}`}
        style={{ height: `${height / 16}rem` }}
        role="img"
        aria-label={props.label}
      >
        <path class="stroke-base" d={bases} />
        <path class="jack-unseen" d={path['not-seen']} />
        <path class="jack-seen" d={path['as-planned']} />
        <path class="jack-differs" d={path.differs + knots} />
        <path class="end-undecided" d={path.undecided + diamonds} />
      </svg>
      {each > 1 && <p class="face-words">Each stroke is {each} jacks and shows the worst of them.</p>}
    </div>
  );
}

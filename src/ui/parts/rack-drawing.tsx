// A rack to scale with rails, U numbers and units, and leaders to rows that can be pressed. When the rows are more
// than the rack is high they scroll beside it and the leaders follow; leaders never cross.
import { useRef, useState } from 'preact/hooks';
import { HOLES_MM, leaderPoints, PANEL_MM, pathOf, spreadRows, UNIT_MM, uMiddleMm, unitSpanMm } from './geometry.ts';
import type { RackProps, RackUnit } from './marks.ts';
import { MarkSymbol } from './symbols.tsx';
import { useWidth } from './use-width.ts';

/** Rails and frame beside the panels, in mm. Common practice, no source. */
const FRAME_MM = 26;
const ROW_AT_LEAST = 56;
/** Second lines may wrap; a row is as high as the longest of them needs, at this many units a character. */
const CHAR = 6.4;
const NAME_CHAR = 9.9;
const LINE = 19;
const NUMBERS = 24;
const LEADER = 40;
/** Narrower than this the rows stand under the rack, without leaders. */
const STACK_BELOW = 260;

export function RackDrawing(props: RackProps) {
  const ref = useRef<HTMLDivElement>(null);
  // The figure's own margins on both sides are not drawn on.
  const width = useWidth(ref) - 16;
  const [scrolled, setScrolled] = useState(0);
  const stacked = width < STACK_BELOW;
  const rackW = stacked ? Math.min(width - NUMBERS - 4, 200) : Math.min(156, width * 0.44);
  const scale = rackW / (PANEL_MM + 2 * FRAME_MM);
  const rackH = props.heightU * UNIT_MM * scale;
  const spans = new Map(props.units.map((unit) => [unit.id, unitSpanMm(unit, props.heightU, props.numbering)]));
  const units = [...props.units].sort((a, b) => spans.get(a.id)!.top - spans.get(b.id)!.top);
  const middles = units.map((unit) => {
    const span = spans.get(unit.id)!;
    return 4 + (span.top + span.height / 2) * scale;
  });
  const ROW = rowHeight(props.units, width - NUMBERS - rackW - LEADER - 30);
  const height = Math.max(rackH + 8, Math.min(units.length, 6) * ROW);
  const listH = Math.max(height, units.length * ROW);
  const rows = spreadRows(middles, ROW, 0, listH);
  const scrolls = listH > height + 1;
  const rem = (n: number) => `${n / 16}rem`;
  const right = NUMBERS + rackW;
  return (
    <figure class={`rack${stacked ? ' rack-stacked' : ''}`} ref={ref}>
      <svg
        class="drawing rack-svg"
        viewBox={`0 0 ${right + (stacked ? 2 : LEADER)} ${height}`}
        style={{ width: rem(right + (stacked ? 2 : LEADER)), height: rem(height) }}
        aria-hidden="true"
        focusable="false"
      >
        <Frame {...props} scale={scale} rackW={rackW} rackH={rackH} />
        {units.map((unit) => (
          <UnitBox key={unit.id} unit={unit} rack={props} scale={scale} rackW={rackW} />
        ))}
        {!stacked &&
          units.map((unit, i) => {
            const to = rows[i]! - (scrolls ? scrolled : 0);
            if (to < 4 || to > height - 4) return null;
            return (
              <path
                key={unit.id}
                class={`rack-leader rack-leader-${unit.mark ?? 'none'}`}
                transform={`translate(${right} 0)`}
                data-unit={unit.id}
                d={pathOf([
                  [-earInset(props.side, scale), middles[i]!],
                  ...leaderPoints(middles[i]!, to, LEADER - 2, 7),
                ])}
              />
            );
          })}
      </svg>
      <ul
        class={`rack-rows${scrolls && !stacked ? ' rack-scrolls' : ''}`}
        style={stacked ? undefined : { height: rem(height) }}
        onScroll={(e) => {
          const size = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
          setScrolled((e.currentTarget.scrollTop / size) * 16);
        }}
      >
        {units.map((unit, i) => (
          <li key={unit.id} style={stacked ? undefined : { top: rem(rows[i]! - ROW / 2), height: rem(ROW) }}>
            <RackRow unit={unit} onPress={props.onPress} />
          </li>
        ))}
      </ul>
      <figcaption class="face-words">
        {props.heightU} U to scale, U1 at the {props.numbering === 'bottom-up' ? 'floor' : 'top'}, seen from{' '}
        {props.side === 'front' ? 'the front' : 'behind'}.
        {scrolls && !stacked && ` ${units.length} units: the list scrolls and the lines follow.`}
      </figcaption>
    </figure>
  );
}

function RackRow(props: { unit: RackUnit; onPress?: ((id: string) => void) | undefined }) {
  const { unit, onPress } = props;
  const last = unit.u + unit.heightU - 1;
  const inside = (
    <>
      <span class="rack-mark">{unit.mark !== undefined && <MarkSymbol mark={unit.mark} size={1.3} />}</span>
      <span class="rack-text">
        <span class="rack-unit">
          <span class="ident">{unit.label}</span>{' '}
          <span class="rack-u">
            U{unit.u}
            {unit.heightU > 1 && `–${last}`}
          </span>
        </span>{' '}
        {unit.line !== undefined && <span class={`rack-line${unit.mark === 'hazard' ? ' red' : ''}`}>{unit.line}</span>}
      </span>
    </>
  );
  if (!onPress) return <div class="rack-row">{inside}</div>;
  return (
    <button type="button" class="rack-row" onClick={() => onPress(unit.id)}>
      {inside}
    </button>
  );
}

function Frame(props: RackProps & { scale: number; rackW: number; rackH: number }) {
  const { scale, rackW, rackH, heightU } = props;
  const rail = (FRAME_MM / 2) * scale;
  const holes: string[] = [];
  for (let u = 0; u < heightU; u++)
    for (const mm of HOLES_MM) {
      const y = 4 + (u * UNIT_MM + (UNIT_MM - mm)) * scale;
      for (const x of [NUMBERS + rail + 4, NUMBERS + rackW - rail - 4]) holes.push(`M${x - 1} ${y}h2`);
    }
  const numbers = Array.from({ length: heightU }, (_, i) => i + 1).filter(
    (u) => u === 1 || u === heightU || (u % 5 === 0 && heightU - u > 1),
  );
  return (
    <>
      <rect class="ink-2" x={NUMBERS + 1} y={1.5} width={rackW - 2} height={rackH + 5} />
      <path class="rack-holes" d={holes.join('')} />
      {numbers.map((u) => (
        <text
          key={u}
          class="drawing-note drawing-mono"
          x={NUMBERS - 4}
          y={4 + uMiddleMm(u, heightU, props.numbering) * scale + 4.3}
          text-anchor="end"
        >
          {u}
        </text>
      ))}
    </>
  );
}

function UnitBox(props: { unit: RackUnit; rack: RackProps; scale: number; rackW: number }) {
  const { unit, rack, scale, rackW } = props;
  const inset = earInset(rack.side, scale);
  const x = NUMBERS + inset;
  const w = rackW - 2 * inset;
  const span = unitSpanMm(unit, rack.heightU, rack.numbering);
  const y = 4 + span.top * scale;
  const h = span.height * scale;
  const size = Math.max(12, Math.min(13, h - 1.5));
  const chars = Math.max(1, Math.floor((w - 8) / (size * 0.6)));
  const moved = unit.planU !== undefined && unit.planU !== unit.u;
  const ghost = moved ? unitSpanMm({ u: unit.planU!, heightU: unit.heightU }, rack.heightU, rack.numbering) : null;
  return (
    <g>
      {ghost && (
        <>
          <rect class="rack-ghost" x={x} y={4 + ghost.top * scale} width={w} height={ghost.height * scale} />
          <Moved
            x={x + w * 0.45}
            from={4 + (ghost.top + ghost.height / 2) * scale}
            to={span.top > ghost.top ? y : y + h}
            by={Math.abs(unit.planU! - unit.u)}
          />
          <text
            class="drawing-note"
            x={x + w - 5}
            y={4 + (ghost.top + ghost.height / 2) * scale + 4.3}
            text-anchor="end"
          >
            plan
          </text>
        </>
      )}
      <rect class="rack-unit-box" x={x} y={y} width={w} height={h} />
      {/* An identifier is never cut: where it does not fit, the row beside it names the unit. */}
      {unit.label.length <= chars && h >= 11 && (
        <text class="drawing-ident" style={{ fontSize: `${size}px` }} x={x + 5} y={y + h / 2 + size * 0.35}>
          {unit.label}
        </text>
      )}
    </g>
  );
}

/** All rows are equally high, so that leaders keep their order and their distance. */
function rowHeight(units: readonly RackUnit[], room: number): number {
  // Names are in mono letters and wrap as well; each of the two takes a line at least.
  const lines = (text: string, char: number) => Math.max(1, Math.ceil((text.length * char) / Math.max(60, room)));
  const most = Math.max(
    2,
    ...units.map(({ label, line }) => lines(`${label} U00`, NAME_CHAR) + lines(line ?? '', CHAR)),
  );
  return ROW_AT_LEAST + (most - 2) * LINE;
}

/** From the front the ears reach over the rails; from behind the body stands between them. */
function earInset(side: 'front' | 'rear', scale: number): number {
  return (side === 'front' ? FRAME_MM * 0.55 : FRAME_MM * 1.25) * scale + 1;
}

/** The arrow from where the plan has a unit to where it was found, with its length in words. */
function Moved(props: { x: number; from: number; to: number; by: number }) {
  const { x, from, to, by } = props;
  const up = to < from;
  const head = up ? 5 : -5;
  return (
    <>
      <path class="mark-red" stroke-width="2" d={`M${x} ${from}V${to + head}`} />
      <path class="moved-head" d={`M${x} ${to}l-3.5 ${head + (up ? 1 : -1)}h7Z`} />
      <text class="drawing-note moved-words" x={x + 7} y={(from + to) / 2 + (up ? 0 : 9)}>
        {by} U {up ? 'up' : 'down'}
      </text>
    </>
  );
}

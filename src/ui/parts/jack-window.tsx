// The enlarged window: a few columns of the face that follow the current jack, with plan and found labels beside
// each. Faces of two rows or more keep all rows; a single row sets its labels beneath, so that more jacks fit.
import { useRef } from 'preact/hooks';
import { cloudPath, followWindow } from './geometry.ts';
import { JackButtons, type Spot } from './jack-buttons.tsx';
import { type FaceProps, type JackMark, seenRows, visibleMark } from './marks.ts';
import { Socket } from './socket.tsx';
import { BOX_H, boxWidth, SvgLabel, SvgMark, SvgNoLabel } from './svg-marks.tsx';
import { useWidth } from './use-width.ts';

interface CellProps {
  jack: JackMark;
  x: number;
  y: number;
  width: number;
  /** Name under the socket instead of above it: the lower row of several. */
  low: boolean;
  /** A row with others above and below it. */
  between: boolean;
  current: boolean;
}

const ROW = 60;
/** Of three rows and more, so that the name of a jack in the middle stands nearer to it than to the one above. */
const ROW_OF_MANY = 70;
const SINGLE_ROW = 134;
/** Letters of a jack's name that make its cell wider; what is longer keeps its end, where names of a row differ. */
const NAME = 12;
const LETTER = 8.4;
const EMPTY = 'empty';
/** Room of that word in letters of a note. */
const EMPTY_WIDTH = EMPTY.length * 6.8;

export function JackWindow(props: FaceProps) {
  const ref = useRef<HTMLDivElement>(null);
  const width = useWidth(ref);
  const blind = props.blind ?? false;
  const rows = seenRows(props.rows, props.mirrored ?? false).map((row) => row.map((jack) => visibleMark(jack, blind)));
  const columns = Math.max(0, ...rows.map((row) => row.length));
  if (columns === 0) return null;
  const single = rows.length === 1;
  const needed = cellWidth(rows, single);
  const fit = Math.max(1, Math.floor(width / needed + 0.2));
  const currentColumn = Math.max(0, ...rows.map((row) => row.findIndex((jack) => jack.place === props.current)));
  const { start, size } = followWindow(columns, fit, currentColumn);
  const cell = Math.max(needed, Math.min(width / size, needed * 1.5));
  const total = Math.max(width, cell * size);
  const pitch = rows.length > 2 ? ROW_OF_MANY : ROW;
  const height = single ? SINGLE_ROW : 24 + rows.length * pitch + 18;
  const spots: Spot[] = [];
  const cells: CellProps[] = [];
  rows.forEach((row, r) => {
    row.slice(start, start + size).forEach((jack, c) => {
      const x = c * cell;
      const y = single ? 0 : 22 + r * pitch;
      const low = !single && r === rows.length - 1;
      const between = r > 0 && !low;
      cells.push({ jack, x, y, width: cell, low, between, current: jack.place === props.current });
      spots.push({
        jack,
        x,
        y: single || r > 0 ? y : 0,
        width: cell,
        height: single ? height : r > 0 ? pitch + 18 : pitch + 22,
      });
    });
  });
  // The current jack is drawn last, so that its circle is never covered.
  cells.sort((a, b) => Number(a.current) - Number(b.current));
  return (
    <div class="jack-window" ref={ref}>
      <svg
        class="drawing"
        viewBox={`0 0 ${total} ${height}`}
        style={{ height: `${(height * Math.min(1, width / total)) / 16}rem` }}
        aria-hidden="true"
        focusable="false"
      >
        {cells.map((c) => (single ? <Beneath key={c.jack.place} {...c} /> : <Beside key={c.jack.place} {...c} />))}
        {start > 0 && <path class="more-edge" d={`M0.5 0V${height}`} />}
        {start + size < columns && <path class="more-edge" d={`M${total - 0.5} 0V${height}`} />}
      </svg>
      <JackButtons
        spots={spots}
        width={total}
        height={height}
        current={props.current}
        blind={blind}
        onPress={props.onPress}
      />
    </div>
  );
}

/** Room for the longest label of the whole face, so that the window does not change its scale while it moves. */
function cellWidth(rows: JackMark[][], single: boolean): number {
  const longest = Math.max(
    0,
    ...rows
      .flat()
      .map((jack) =>
        Math.max(
          boxWidth(jack.plan ?? ''),
          boxWidth(jack.found ?? ''),
          jack.predicted === undefined ? 0 : boxWidth(`${jack.predicted}?`),
          single ? Math.min(NAME, jack.label.length) * 9 : 0,
        ),
      ),
  );
  return single ? Math.max(58, longest + 12) : Math.max(112, 57 + longest + 18);
}

function foundVariant(jack: JackMark) {
  return jack.mark === 'differs' || jack.mark === 'hazard' ? ('differs' as const) : ('found' as const);
}

/** A name as long as its cell is wide; the plate and the button have it whole. */
function Name(props: { jack: JackMark; x: number; y: number; current: boolean; width: number; from?: number }) {
  const most = Math.max(3, Math.floor(props.width / LETTER));
  const letters = [...props.jack.label];
  const text = letters.length <= most ? props.jack.label : `…${letters.slice(1 - most).join('')}`;
  // Longer than what stands beneath it: it begins where its cell does.
  const from = props.from !== undefined && (text.length * LETTER) / 2 > props.x - props.from ? props.from : undefined;
  return (
    <text
      class={`drawing-ident${props.current ? ' drawing-strong' : ''}`}
      x={from ?? props.x}
      y={props.y}
      text-anchor={from === undefined ? 'middle' : 'start'}
    >
      {text}
    </text>
  );
}

function Beside(props: CellProps) {
  const { jack, x, y, low, between, current } = props;
  const socketX = x + 11;
  const socketY = low ? y + 12 : y + 15;
  const nameX = socketX + 18;
  const boxX = x + 57;
  const planY = y + 6;
  const foundY = y + 30;
  const midFound = foundY + BOX_H / 2;
  const says = jack.found ?? (jack.predicted !== undefined ? `${jack.predicted}?` : undefined);
  const differs = jack.mark === 'differs';
  const end =
    boxX + (says === undefined ? (jack.state === 'unlabelled' || jack.state === 'illegible' ? 26 : 0) : boxWidth(says));
  const planEnd = jack.plan === undefined ? 0 : boxX + boxWidth(jack.plan);
  return (
    <g>
      <Name
        jack={jack}
        x={nameX}
        y={low ? y + 73 : between ? y + 3 : y - 6}
        current={current}
        width={props.width - 8}
        from={x + 4}
      />
      <Socket
        x={socketX}
        y={socketY}
        width={36}
        connector={jack.connector}
        state={jack.state}
        upsideDown={jack.upsideDown}
      />
      {jack.plan !== undefined && <SvgLabel x={boxX} y={planY} text={jack.plan} variant="plan" />}
      {says !== undefined && (
        <path
          class={differs ? 'leader-red' : jack.found === undefined ? 'leader' : 'leader-found'}
          d={`M${jack.found === undefined ? socketX + 42 : socketX + 28} ${midFound}H${boxX}`}
        />
      )}
      {jack.found !== undefined && <SvgLabel x={boxX} y={foundY} text={jack.found} variant={foundVariant(jack)} />}
      {jack.found === undefined && jack.predicted !== undefined && (
        <SvgLabel x={boxX} y={foundY} text={jack.predicted} variant="predicted" />
      )}
      {jack.found === undefined && (jack.state === 'unlabelled' || jack.state === 'illegible') && (
        <>
          <path class="leader-found" d={`M${socketX + 28} ${midFound}H${boxX}`} />
          <SvgNoLabel x={boxX} y={foundY + 1.5} unreadable={jack.state === 'illegible'} />
        </>
      )}
      {jack.state === 'empty' && jack.found === undefined && !current && (
        <text class="drawing-note" x={boxX} y={midFound + 4.5}>
          {EMPTY}
        </text>
      )}
      {jack.mark !== undefined && (
        <SvgMark
          x={Math.max(end, jack.state === 'empty' ? boxX + EMPTY_WIDTH : boxX) + 10}
          y={midFound}
          size={12}
          mark={jack.mark}
        />
      )}
      {differs && <path class="cloud" d={cloudPath(x + 4, y + 2, Math.max(end + 18, planEnd + 6) - x - 4, 54, 11)} />}
      {current && (
        <>
          <circle class="detail-circle" cx={nameX} cy={socketY + 15} r={25} />
          {says === undefined && jack.state !== 'unlabelled' && jack.state !== 'illegible' && (
            <>
              <path class="leader" d={`M${nameX + 24} ${midFound}H${boxX + 5}`} />
              <text class="drawing-note drawing-strong" x={boxX + 9} y={midFound + 4.5}>
                now
              </text>
            </>
          )}
        </>
      )}
    </g>
  );
}

function Beneath(props: CellProps) {
  const { jack, x, width, current } = props;
  const mid = x + width / 2;
  const box = (text: string, y: number, variant: 'plan' | 'found' | 'predicted' | 'differs') => (
    <SvgLabel x={mid - boxWidth(variant === 'predicted' ? `${text}?` : text) / 2} y={y} text={text} variant={variant} />
  );
  const bare = jack.found === undefined && (jack.state === 'unlabelled' || jack.state === 'illegible');
  const differs = jack.mark === 'differs';
  const cloudW = Math.max(44, boxWidth(jack.found ?? ''), boxWidth(jack.plan ?? '')) + 8;
  return (
    <g>
      <Name jack={jack} x={mid} y={14} current={current} width={width - 6} />
      <Socket
        x={mid - 18}
        y={29}
        width={36}
        connector={jack.connector}
        state={jack.state}
        upsideDown={jack.upsideDown}
      />
      {jack.plan !== undefined && box(jack.plan, 72, 'plan')}
      {jack.found !== undefined && box(jack.found, 95, foundVariant(jack))}
      {jack.found === undefined && jack.predicted !== undefined && box(jack.predicted, 95, 'predicted')}
      {bare && <SvgNoLabel x={mid - 13} y={96.5} unreadable={jack.state === 'illegible'} />}
      {jack.found === undefined && jack.predicted === undefined && !bare && (current || jack.state === 'empty') && (
        <text
          class={`drawing-note${current ? ' drawing-strong' : ''}`}
          x={mid}
          y={jack.plan === undefined ? 88 : 109}
          text-anchor="middle"
        >
          {current ? 'now' : EMPTY}
        </text>
      )}
      {jack.mark !== undefined && <SvgMark x={mid} y={124} size={12} mark={jack.mark} />}
      {differs && <path class="cloud" d={cloudPath(mid - cloudW / 2, 22, cloudW, 110, 11)} />}
      {current && <circle class="detail-circle" cx={mid} cy={44} r={25} />}
    </g>
  );
}

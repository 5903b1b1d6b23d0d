// A cause drawn on its row of jacks: plan above, found beneath, a line for each plug from where it belongs to where it
// is. A shift is so many lines of one slope. What nobody followed is drawn in dashes, and two stories twice.
import { useRef } from 'preact/hooks';
import type { CauseDrawing as Drawing } from '../../core/report/causesView.ts';
import { BOX_H, boxWidth, SvgLabel } from './svg-marks.tsx';
import { useWidth } from './use-width.ts';

const LEFT = 44;
const RIGHT = 16;
const JACKS_Y = 16;
const TOP_Y = 26;
const GAP = 46;

export interface Story {
  words: string;
  /** Lines go straight down: the plugs are right, the labels went round. */
  straight: boolean;
}

export function CauseDrawing(props: { drawing: Drawing; stories: readonly Story[]; label: string }) {
  const { jacks, arrows, seen } = props.drawing;
  const ref = useRef<HTMLDivElement>(null);
  const width = useWidth(ref);
  const step = jacks.length > 1 ? Math.min(96, (width - LEFT - RIGHT - 24) / (jacks.length - 1)) : 0;
  const x = (i: number) => LEFT + 12 + i * step;
  const widest = Math.max(0, ...arrows.map(({ label }) => boxWidth(label)));
  const boxes = step >= widest + 6 || jacks.length === 1;
  const names = Math.max(
    1,
    Math.ceil((Math.max(...jacks.map(({ label }) => label.length)) * 8.4 + 8) / Math.max(1, step)),
  );
  const each = TOP_Y + (boxes ? BOX_H * 2 + 12 : 0) + GAP + 8;
  const height = each * props.stories.length;
  return (
    <div class="cause-drawing" ref={ref}>
      <svg
        class="drawing"
        viewBox={`0 0 ${width} ${height}`}
        style={{ height: `${height / 16}rem` }}
        role="img"
        aria-label={props.label}
      >
        {props.stories.map((story, s) => {
          const y = s * each;
          const from = y + TOP_Y + (boxes ? BOX_H + 6 : 0);
          const to = from + GAP;
          return (
            <g key={story.words}>
              <text class="drawing-note" x={0} y={from + 4}>
                Plan
              </text>
              <text class="drawing-note" x={0} y={to + 4}>
                Found
              </text>
              <text class="drawing-note" x={0} y={y + JACKS_Y - 2}>
                {story.words}
              </text>
              <path class="rule" d={`M${LEFT} ${from}H${width - 4}M${LEFT} ${to}H${width - 4}`} />
              {jacks.map((jack, i) => (
                <g key={jack.place}>
                  <path class="rule" d={`M${x(i)} ${from - 4}v8M${x(i)} ${to - 4}v8`} />
                  {(i % names === 0 || i === jacks.length - 1) && !boxes && (
                    <text class="drawing-note drawing-mono" x={x(i)} y={to + 20} text-anchor="middle">
                      {jack.label}
                    </text>
                  )}
                </g>
              ))}
              {arrows.map(({ label, from: a, to: b }) => {
                const begin = story.straight ? b : a;
                return (
                  <g key={`${label} ${a}`}>
                    <path class={seen ? 'cause-seen' : 'cause-told'} d={`M${x(begin)} ${from + 4}L${x(b)} ${to - 5}`} />
                    <path
                      class={seen ? 'cause-seen-head' : 'cause-told-head'}
                      d={head(x(begin), from + 4, x(b), to - 4)}
                    />
                    {boxes && (
                      <>
                        <SvgLabel x={x(a) - boxWidth(label) / 2} y={from - BOX_H - 6} text={label} variant="plan" />
                        <SvgLabel x={x(b) - boxWidth(label) / 2} y={to + 6} text={label} variant="found" />
                      </>
                    )}
                  </g>
                );
              })}
            </g>
          );
        })}
      </svg>
      {boxes && <p class="cause-jacks">{jacks.map(({ label }) => label).join(', ')}, from the left.</p>}
    </div>
  );
}

/** A small open head at the end of a line. */
function head(x1: number, y1: number, x2: number, y2: number): string {
  const angle = Math.atan2(y2 - y1, x2 - x1);
  const at = (turn: number) => `${x2 - 8 * Math.cos(angle + turn)} ${y2 - 8 * Math.sin(angle + turn)}`;
  return `M${at(0.45)}L${x2} ${y2}L${at(-0.45)}`;
}

// Marks inside the drawings: the small state marks and the boxed labels, in drawing units. Symbols with words
// beside them are in symbols.tsx.
import type { ComponentChildren } from 'preact';
import type { JackMark } from './marks.ts';

/** Width of one mono character at the drawing's label size of 14. */
export const CHAR = 8.4;
export const BOX_H = 19;

export function boxWidth(text: string): number {
  return Math.max(1, text.length) * CHAR + 10;
}

export function SvgLabel(props: {
  x: number;
  y: number;
  text: string;
  variant: 'plan' | 'found' | 'predicted' | 'differs';
}) {
  const text = props.variant === 'predicted' ? `${props.text}?` : props.text;
  const width = boxWidth(text);
  return (
    <g class={`svg-label svg-label-${props.variant}`}>
      <rect x={props.x} y={props.y} width={width} height={BOX_H} />
      <text x={props.x + width / 2} y={props.y + 14.4} text-anchor="middle">
        {text}
      </text>
    </g>
  );
}

/** A box with a dash: there is a label's place and no label. */
export function SvgNoLabel(props: { x: number; y: number; unreadable?: boolean }) {
  const { x, y } = props;
  return (
    <g class="svg-no-label">
      <rect x={x} y={y} width={26} height={BOX_H - 3} />
      {props.unreadable ? (
        <path d={`M${x + 5} ${y + 11}l3.5 -6 3 6 3.5 -6 3 6 3 -5`} />
      ) : (
        <path d={`M${x + 8} ${y + 8}h10`} />
      )}
    </g>
  );
}

/** A state mark of about `size` centred on x, y; under 10 the sign for "differs" is the knot. */
export function SvgMark(props: {
  x: number;
  y: number;
  size: number;
  mark: NonNullable<JackMark['mark']>;
}): ComponentChildren {
  const { x, y, size, mark } = props;
  const at = `translate(${x - size / 2} ${y - size / 2}) scale(${size / 24})`;
  switch (mark) {
    case 'as-planned':
      return <path transform={at} class="mark-tick" d="M3 13 9 19 21 5" stroke-width="3.6" />;
    case 'differs':
      return size < 10 ? (
        <path transform={at} class="mark-red" d="M3 3 21 21M21 3 3 21" stroke-width="5" />
      ) : (
        <path transform={at} class="mark-red" d="M2 9H22M2 16H22M16 2 8 23" stroke-width="3.4" />
      );
    case 'undecided':
      return (
        <g transform={at} class="mark-blue">
          <path d="M12 1 23 12 12 23 1 12Z" stroke-width="2.4" />
          <path d="M9 9.8C9 7.8 10.3 6.9 12 6.9S15 7.8 15 9.4C15 11.6 12 11.8 12 14" stroke-width="2.2" />
          <path d="M12 16.6h.01" stroke-width="2.8" stroke-linecap="square" />
        </g>
      );
    case 'hazard':
      return (
        <g transform={at}>
          <path d="M12 2 23 21.5H1Z" class="sign-yellow" stroke-width="2" stroke-linejoin="round" />
          <path d="M12 3.7 21.4 20.4H2.6Z" class="sign-band" stroke-width="2" stroke-linejoin="round" />
          <path d="M10.6 9H13.4L12.8 15.2H11.2Z" class="sign-black" />
          <circle cx="12" cy="17.5" r="1.45" class="sign-black" />
        </g>
      );
  }
}

// A photo with what was drawn on it and pinned to it. The picture itself stays as it was taken: marks are lines over
// it, with a dark casing so that they hold on any ground.
import type { PhotoMark, Spot } from '../../core/record/events.ts';
import { markToPath } from '../../core/report/photoMarks.ts';

export interface ShownPin {
  jack: string;
  at: Spot;
  open?: boolean | undefined;
  current?: boolean | undefined;
}

export function PhotoMarks(props: { marks: readonly PhotoMark[]; width: number; height: number }) {
  const { marks, width, height } = props;
  if (marks.length === 0) return null;
  return (
    <svg
      class="photo-marks"
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="none"
      aria-hidden="true"
      focusable="false"
    >
      {['photo-casing', 'photo-mark'].map((cls) =>
        marks.map((mark, i) => (
          <path
            key={`${cls} ${i}`}
            class={cls}
            d={markToPath(mark, width, height)}
            vector-effect="non-scaling-stroke"
          />
        )),
      )}
    </svg>
  );
}

/** A ring round the spot and the jack's name beside it; the name goes to the left near the right edge. */
export function PhotoPins({ pins }: { pins: readonly ShownPin[] }) {
  return (
    <>
      {pins.map((pin, i) => (
        <span
          key={i}
          class={`photo-pin${pin.at.x > 0.8 ? ' photo-pin-left' : ''}${pin.current ? ' photo-pin-current' : ''}`}
          style={{ left: `${pin.at.x * 100}%`, top: `${pin.at.y * 100}%` }}
        >
          <svg viewBox="-12 -12 24 24" aria-hidden="true" focusable="false">
            <circle r="9" class="photo-casing" vector-effect="non-scaling-stroke" />
            <circle r="9" class="photo-mark" vector-effect="non-scaling-stroke" />
          </svg>
          <span class="ident">{pin.jack}</span>
        </span>
      ))}
    </>
  );
}

// What is drawn over the camera's picture besides the circle: the outline of the label that was taken, what it said and
// how many others were in view, and the hint when a label lies beside the circle. Nothing here blinks.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { pictureToBox } from '../../scan/aim.ts';
import type { View } from '../../scan/camera.ts';
import type { Point, Reading } from '../../scan/scanner.ts';
import { takenBeside } from './camera/cameraWords.ts';
import type { WalkCamera } from './walkCamera.ts';
import type { WalkFlow } from './walkFlowType.ts';
import { labelToShow } from './walkState.ts';

/** The outline stands this long after the reading, then goes in 160 ms. */
const STANDS_MS = 1200;
/** A label on its way into the circle needs no hint. */
const HINT_AFTER_MS = 700;

const HINTS: Readonly<Partial<Record<View, string>>> = {
  outside: 'Bring the label into the circle.',
  dark: 'The picture is black. Uncover the lens, or press Camera and restart it.',
};

export function FinderMarks({ flow, camera }: { flow: WalkFlow; camera: WalkCamera }) {
  const taken = camera.taken.value;
  const old = useLater(taken, STANDS_MS);
  const sight = camera.sight.value;
  const hint = useLater(sight, HINT_AFTER_MS) ? HINTS[sight] : undefined;
  const quad = taken && quadOf(taken, camera);
  const others = taken?.others ?? 0;
  return (
    <>
      {quad && (
        <svg
          class={`finder-quad${old ? ' finder-quad-old' : ''}`}
          viewBox={`0 0 ${quad.width} ${quad.height}`}
          aria-hidden="true"
          focusable="false"
        >
          <polygon class="finder-casing" points={quad.points} />
          <polygon class="finder-line" points={quad.points} />
        </svg>
      )}
      {flow.lastRead.value !== null && (
        <p class="finder-read">
          <span class="ident">{labelToShow(flow.lastRead.value)}</span>
          {others > 0 && ` ${takenBeside(others)}`}
        </p>
      )}
      {hint && <p class="finder-beside">{hint}</p>}
    </>
  );
}

/** True once the value has stood unchanged for so long. */
function useLater(value: unknown, ms: number): boolean {
  const later = useSignal<unknown>(undefined);
  useEffect(() => {
    const timer = setTimeout(() => {
      later.value = value;
    }, ms);
    return () => clearTimeout(timer);
  }, [value]);
  return later.value === value;
}

function quadOf({ corners }: Reading, camera: WalkCamera): { points: string; width: number; height: number } | null {
  const video = camera.scanner.value?.video();
  if (!corners || corners.length === 0 || !video || video.videoWidth === 0) return null;
  const box = { width: camera.place.clientWidth, height: camera.place.clientHeight };
  if (box.width === 0 || box.height === 0) return null;
  const picture = { width: video.videoWidth, height: video.videoHeight };
  const shown = (corner: Point) => {
    const { x, y } = pictureToBox(corner, picture, box);
    return `${x.toFixed(1)},${y.toFixed(1)}`;
  };
  return { points: corners.map(shown).join(' '), ...box };
}

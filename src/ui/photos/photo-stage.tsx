// A photo to be looked at closely, drawn on or pointed at: one finger moves it or draws, two enlarge it, a touch
// centres, points, or sets tail and tip one after the other. With keys a ring is moved and Enter touches.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { PhotoMark, Spot } from '../../core/record/events.ts';
import { isMark, toSpot } from '../../core/report/photoMarks.ts';
import { type Box, type Look, layPhoto, pointToSpot, pushed, ZOOM_STEP, zoomed } from './photo-geometry.ts';
import { PhotoMarks, PhotoPins, type ShownPin } from './shown-photo.tsx';

export interface StageProps {
  url: string;
  photo: Box;
  name: string;
  marks: readonly PhotoMark[];
  pins: readonly ShownPin[];
  look: Look;
  onLook: (look: Look) => void;
  /** What a finger does: look moves, a shape draws, point tells the spot. */
  tool: 'look' | 'point' | PhotoMark['shape'];
  onPoint?: ((spot: Spot) => void) | undefined;
  onMark?: ((mark: PhotoMark) => void) | undefined;
}

/** CSS pixels; less is a touch, not a drag. */
const SLIP = 8;
const KEY_STEP = 0.02;
const KEYS: Record<string, [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

type Point = { x: number; y: number };

export function PhotoStage(props: StageProps) {
  const { photo, look, tool } = props;
  const frame = useRef<HTMLDivElement>(null);
  const box = useSignal<Box | null>(null);
  const tail = useSignal<Spot | null>(null);
  const tip = useSignal<Spot | null>(null);
  const ring = useSignal<Spot | null>(null);
  const fingers = useRef(new Map<number, { start: Point; now: Point }>());
  /** Set once two fingers were down: what follows is no touch. */
  const many = useRef(false);

  useEffect(() => {
    const holder = frame.current;
    if (!holder) return;
    const measure = () => {
      box.value = { width: holder.clientWidth, height: holder.clientHeight };
    };
    const watch = new ResizeObserver(measure);
    watch.observe(holder);
    measure();
    return () => watch.disconnect();
  }, []);
  useEffect(() => {
    tail.value = null;
    tip.value = null;
    ring.value = null;
  }, [tool]);

  const laid = box.value && box.value.width > 0 ? layPhoto(photo, box.value, look) : null;
  const spotOf = (at: Point): Spot | null => (laid ? pointToSpot(laid, at.x, at.y) : null);
  const pointOf = (e: PointerEvent): Point => {
    const at = frame.current?.getBoundingClientRect();
    return { x: e.clientX - (at?.left ?? 0), y: e.clientY - (at?.top ?? 0) };
  };

  function touch(spot: Spot): void {
    if (tool === 'look') props.onLook({ ...look, centre: spot });
    else if (tool === 'point') props.onPoint?.(spot);
    else if (tail.value === null) tail.value = spot;
    else finish(tail.value, spot);
  }
  function finish(from: Spot, to: Spot): void {
    tail.value = null;
    tip.value = null;
    if (tool !== 'look' && tool !== 'point' && isMark({ from, to })) props.onMark?.({ shape: tool, from, to });
  }

  const down = (e: PointerEvent) => {
    if (e.pointerType === 'mouse' && e.button !== 0) return;
    frame.current?.setPointerCapture(e.pointerId);
    const at = pointOf(e);
    fingers.current.set(e.pointerId, { start: at, now: at });
    many.current = fingers.current.size > 1;
    if (many.current) tip.value = null;
    ring.value = null;
  };
  const move = (e: PointerEvent) => {
    const finger = fingers.current.get(e.pointerId);
    if (!finger || !laid || !box.value) return;
    const before = finger.now;
    const now = pointOf(e);
    const others = [...fingers.current.entries()].filter(([id]) => id !== e.pointerId);
    finger.now = now;
    const other = others[0]?.[1].now;
    if (other) {
      const factor = distance(now, other) / Math.max(1, distance(before, other));
      const next = pushed(look, laid, box.value, (now.x - before.x) / 2, (now.y - before.y) / 2);
      props.onLook(zoomed(next, factor));
    } else if (!many.current && distance(finger.start, now) > SLIP) {
      if (tool === 'look') props.onLook(pushed(look, laid, box.value, now.x - before.x, now.y - before.y));
      else if (tool !== 'point') {
        tail.value = spotOf(finger.start) ?? tail.value;
        tip.value = spotOf(now) ?? tip.value;
      }
    }
  };
  const up = (e: PointerEvent) => {
    const finger = fingers.current.get(e.pointerId);
    fingers.current.delete(e.pointerId);
    if (!finger || many.current) {
      if (fingers.current.size === 0) many.current = false;
      return;
    }
    if (tail.value && tip.value) return finish(tail.value, tip.value);
    const spot = spotOf(finger.now);
    if (spot && distance(finger.start, finger.now) <= SLIP) touch(spot);
  };
  const cancel = (e: PointerEvent) => {
    fingers.current.delete(e.pointerId);
    tip.value = null;
  };
  const key = (e: KeyboardEvent) => {
    const step = KEYS[e.key];
    if (step) {
      e.preventDefault();
      const at = ring.value ?? look.centre;
      const by = (e.shiftKey ? KEY_STEP / 5 : KEY_STEP * 1.5) / Math.sqrt(look.zoom);
      const next = toSpot(at.x + step[0] * by, at.y + step[1] * by);
      ring.value = next;
      if (tail.value) tip.value = next;
      if (look.zoom > 1) props.onLook({ ...look, centre: next });
    } else if (e.key === '+' || e.key === '-') {
      props.onLook(zoomed(look, e.key === '+' ? ZOOM_STEP : 1 / ZOOM_STEP));
    }
  };

  const drawn: PhotoMark[] =
    tail.value && tip.value && tool !== 'look' && tool !== 'point'
      ? [...props.marks, { shape: tool, from: tail.value, to: tip.value }]
      : [...props.marks];
  const begun = tail.value && !tip.value ? tail.value : null;
  return (
    <div
      ref={frame}
      class="photo-stage"
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={cancel}
    >
      {laid && (
        <div
          class="photo-laid"
          style={{
            width: `${laid.width}px`,
            height: `${laid.height}px`,
            transform: `translate(${laid.left}px, ${laid.top}px)`,
          }}
        >
          <img src={props.url} alt="" draggable={false} />
          <PhotoMarks marks={drawn} width={photo.width} height={photo.height} />
          <PhotoPins pins={props.pins} />
          {[begun, ring.value].map(
            (spot, i) =>
              spot && (
                <span key={i} class="photo-ring" style={{ left: `${spot.x * 100}%`, top: `${spot.y * 100}%` }}>
                  <svg viewBox="-12 -12 24 24" aria-hidden="true" focusable="false">
                    <circle r={i === 0 ? 4 : 9} class="photo-casing" />
                    <circle r={i === 0 ? 4 : 9} class="photo-mark" />
                  </svg>
                </span>
              ),
          )}
        </div>
      )}
      <button
        type="button"
        class="photo-keys"
        aria-label={props.name}
        onKeyDown={key}
        onClick={(e) => {
          // Pressed without a finger on the glass: by a switch or a screen reader.
          if (e.detail === 0) touch(ring.value ?? look.centre);
        }}
      />
    </div>
  );
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

// A photo to be looked at closely, drawn on or pointed at: one finger moves it or draws, two enlarge it, a touch
// centres, points, or sets tail and tip one after the other. With keys a ring is moved and Enter touches.
import { useSignal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { PhotoMark, Spot } from '../../core/record/events.ts';
import { isMark, toSpot } from '../../core/report/photoMarks.ts';
import { type Box, type Laid, type Look, layPhoto, pointToSpot, pushed, ZOOM_STEP, zoomed } from './photo-geometry.ts';
import { PhotoMarks, PhotoPins, type ShownPin } from './shown-photo.tsx';

interface StageProps {
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
  const { photo, look } = props;
  const { frame, box } = useFrame();
  const laid = box && box.width > 0 ? layPhoto(photo, box, look) : null;
  const stroke = useStroke(props);
  const fingers = useFingers(props, stroke, frame, laid && box && { ...laid, box });
  return (
    <div ref={frame} class="photo-stage" {...fingers}>
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
          <PhotoMarks marks={stroke.drawn} width={photo.width} height={photo.height} />
          <PhotoPins pins={props.pins} />
          <Ring spot={stroke.tip.value ? null : stroke.tail.value} radius={4} />
          <Ring spot={stroke.ring.value} radius={9} />
        </div>
      )}
      <button
        type="button"
        class="photo-keys"
        aria-label={props.name}
        onKeyDown={(e) => pressed(e, props, stroke)}
        onClick={(e) => {
          // Pressed without a finger on the glass: by a switch or a screen reader.
          if (e.detail === 0) stroke.touch(stroke.ring.value ?? look.centre);
        }}
      />
    </div>
  );
}

/** The frame that the photo lies in, and its size in CSS pixels. */
function useFrame() {
  const frame = useRef<HTMLDivElement>(null);
  const box = useSignal<Box | null>(null);
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
  return { frame, box: box.value };
}

type Stroke = ReturnType<typeof useStroke>;

/** What is being drawn or pointed at: tail and tip of a mark, and the ring that keys move. */
function useStroke({ look, tool, marks, onLook, onPoint, onMark }: StageProps) {
  const tail = useSignal<Spot | null>(null);
  const tip = useSignal<Spot | null>(null);
  const ring = useSignal<Spot | null>(null);
  useEffect(() => {
    tail.value = null;
    tip.value = null;
    ring.value = null;
  }, [tool]);
  const shape = tool === 'look' || tool === 'point' ? null : tool;
  const finish = (from: Spot, to: Spot) => {
    tail.value = null;
    tip.value = null;
    if (shape && isMark({ from, to })) onMark?.({ shape, from, to });
  };
  const touch = (spot: Spot) => {
    if (tool === 'look') onLook({ ...look, centre: spot });
    else if (tool === 'point') onPoint?.(spot);
    else if (tail.value === null) tail.value = spot;
    else finish(tail.value, spot);
  };
  const drawn: readonly PhotoMark[] =
    shape && tail.value && tip.value ? [...marks, { shape, from: tail.value, to: tip.value }] : marks;
  return { tail, tip, ring, drawn, finish, touch };
}

/** One finger moves the photo or draws, two enlarge it; one that hardly moved is a touch. */
function useFingers(
  { look, tool, onLook }: StageProps,
  stroke: Stroke,
  frame: RefObject<HTMLDivElement | null>,
  laid: (Laid & { box: Box }) | null,
) {
  const { tail, tip, ring } = stroke;
  const fingers = useRef(new Map<number, { start: Point; now: Point }>()).current;
  /** Set once two fingers were down: what follows is no touch. */
  const many = useRef(false);
  const spotOf = (at: Point): Spot | null => (laid ? pointToSpot(laid, at.x, at.y) : null);
  const pointOf = (e: PointerEvent): Point => {
    const at = frame.current?.getBoundingClientRect();
    return { x: e.clientX - (at?.left ?? 0), y: e.clientY - (at?.top ?? 0) };
  };
  const onPointerDown = (e: PointerEvent) => {
    if (e.pointerType === 'mouse' && e.button !== 0) return;
    frame.current?.setPointerCapture(e.pointerId);
    const at = pointOf(e);
    fingers.set(e.pointerId, { start: at, now: at });
    many.current = fingers.size > 1;
    if (many.current) tip.value = null;
    ring.value = null;
  };
  const onPointerMove = (e: PointerEvent) => {
    const finger = fingers.get(e.pointerId);
    if (!finger || !laid) return;
    const before = finger.now;
    const now = pointOf(e);
    finger.now = now;
    const other = [...fingers].find(([id]) => id !== e.pointerId)?.[1].now;
    const [dx, dy] = [now.x - before.x, now.y - before.y];
    if (other) {
      const factor = distance(now, other) / Math.max(1, distance(before, other));
      onLook(zoomed(pushed(look, laid, laid.box, dx / 2, dy / 2), factor));
    } else if (!many.current && distance(finger.start, now) > SLIP) {
      if (tool === 'look') onLook(pushed(look, laid, laid.box, dx, dy));
      else if (tool !== 'point') {
        tail.value = spotOf(finger.start) ?? tail.value;
        tip.value = spotOf(now) ?? tip.value;
      }
    }
  };
  const onPointerUp = (e: PointerEvent) => {
    const finger = fingers.get(e.pointerId);
    fingers.delete(e.pointerId);
    if (!finger || many.current) {
      if (fingers.size === 0) many.current = false;
      return;
    }
    if (tail.value && tip.value) return stroke.finish(tail.value, tip.value);
    const spot = spotOf(finger.now);
    if (spot && distance(finger.start, finger.now) <= SLIP) stroke.touch(spot);
  };
  const onPointerCancel = (e: PointerEvent) => {
    fingers.delete(e.pointerId);
    tip.value = null;
  };
  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel };
}

/** Arrow keys move the ring, plus and minus enlarge. */
function pressed(e: KeyboardEvent, { look, onLook }: StageProps, { ring, tail, tip }: Stroke): void {
  const step = KEYS[e.key];
  if (step) {
    e.preventDefault();
    const at = ring.value ?? look.centre;
    const by = (e.shiftKey ? KEY_STEP / 5 : KEY_STEP * 1.5) / Math.sqrt(look.zoom);
    const next = toSpot(at.x + step[0] * by, at.y + step[1] * by);
    ring.value = next;
    if (tail.value) tip.value = next;
    if (look.zoom > 1) onLook({ ...look, centre: next });
  } else if (e.key === '+' || e.key === '-') {
    onLook(zoomed(look, e.key === '+' ? ZOOM_STEP : 1 / ZOOM_STEP));
  }
}

function Ring({ spot, radius }: { spot: Spot | null; radius: number }) {
  if (!spot) return null;
  return (
    <span class="photo-ring" style={{ left: `${spot.x * 100}%`, top: `${spot.y * 100}%` }}>
      <svg viewBox="-12 -12 24 24" aria-hidden="true" focusable="false">
        <circle r={radius} class="photo-casing" />
        <circle r={radius} class="photo-mark" />
      </svg>
    </span>
  );
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

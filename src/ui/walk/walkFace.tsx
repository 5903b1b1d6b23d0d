// The unit's face in the walk: to scale, enlarged round the current jack, and the side in words. In a blind audit
// nothing of the plan is handed to the drawings.

import { useComputed } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { PlaceId } from '../../core/plan/identity.ts';
import type { Permission as May } from '../../core/record/events.ts';
import { visitingOrder, withoutPlan } from '../../core/report/walk/offered.ts';
import type { JackView, WalkView } from '../../core/report/walk/walkView.ts';
import { predictionAt } from '../../core/walk/slip.ts';
import { FaceStrip } from '../parts/face-strip.tsx';
import type { Permitted } from '../parts/frame.tsx';
import { JackWindow } from '../parts/jack-window.tsx';
import type { FaceProps, JackMark } from '../parts/marks.ts';
import { SweepFace } from '../parts/sweep-face.tsx';
import { useHomes } from './walkFirst.tsx';
import type { WalkFlow } from './walkFlowType.ts';
import { labelToBox } from './walkState.ts';

const MAY: Record<May, Permitted[]> = {
  look: ['look'],
  touch: ['look', 'touch'],
  disconnect: ['look', 'touch', 'unplug'],
};

export function permitted(view: WalkView): { allowed: Permitted[]; remark?: string } {
  return { allowed: MAY[view.permission], ...(view.onAir ? { remark: 'On air: hands off.' } : {}) };
}

export function predictionOf(view: WalkView): { label: string; why: string } | null {
  return view.blind ? null : predictionAt(visitingOrder(view.face), view.current.place);
}

function toMark(jack: JackView, view: WalkView, predicted: string | null): JackMark {
  const shown = view.blind ? withoutPlan(jack) : jack;
  return {
    ...shown,
    plan: shown.plan === undefined ? undefined : labelToBox(shown.plan),
    found: shown.found === undefined ? undefined : labelToBox(shown.found),
    predicted: predicted !== null && jack.place === view.current.place ? labelToBox(predicted) : undefined,
  };
}

export function WalkFace({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const held = useComputed(() => (flow.memory.value.first?.text ?? null) !== null);
  return held.value ? <HeldFace flow={flow} view={view} /> : <JackFaces flow={flow} view={view} />;
}

/** Every jack of the face big enough to be touched; a dashed ring where the plan has the label in hand. */
function HeldFace({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const homes = useHomes(flow);
  const jacks = view.face.rows.flat();
  const home = homes.find(({ place }) => jacks.some((jack) => jack.place === place))?.place;
  return (
    <div class="walk-face walk-held">
      <SweepFace
        unitLabel={view.unit.label}
        rows={view.face.rows.map((row) => row.map((jack) => toMark(jack, view, null)))}
        heightU={view.unit.heightU}
        mirrored={view.face.mirrored}
        blind={view.blind}
        range={home === undefined ? undefined : { first: home, last: home }}
        onPress={(place) => {
          const jack = jacks.find((one) => one.place === place);
          void flow.placeHeld(place, `${view.unit.label} ${jack?.label ?? ''}`);
        }}
      />
      <p class="walk-words">{view.sideWords}</p>
    </div>
  );
}

/** Keeps the jack in hand in sight: when it changes, and when the drawing does, as when the phone is turned. */
function useInSight(ref: RefObject<HTMLElement | null>, place: PlaceId): void {
  useEffect(() => {
    const face = ref.current;
    if (!face) return;
    const show = () => {
      face.querySelector('.jack-window')?.scrollIntoView({ block: 'nearest' });
      face.querySelector('.jack-window [aria-current="true"]')?.scrollIntoView({ block: 'nearest' });
    };
    const observer = new ResizeObserver(show);
    observer.observe(face);
    show();
    return () => observer.disconnect();
  }, [place]);
}

function JackFaces({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const predicted = predictionOf(view)?.label ?? null;
  const current = useComputed(() => flow.memory.value.place);
  const face: FaceProps = {
    unitLabel: view.unit.label,
    rows: view.face.rows.map((row) => row.map((jack) => toMark(jack, view, predicted))),
    heightU: view.unit.heightU,
    current: current.value ?? view.current.place,
    mirrored: view.face.mirrored,
    blind: view.blind,
    onPress: (place) => void flow.moveTo(place),
  };
  const ref = useRef<HTMLDivElement>(null);
  useInSight(ref, face.current ?? '');
  return (
    <div class="walk-face" ref={ref}>
      <FaceStrip {...face} />
      <JackWindow {...face} />
      <p class="walk-words">{view.sideWords}</p>
      {view.along !== null && <p class="walk-words">{view.along}</p>}
    </div>
  );
}

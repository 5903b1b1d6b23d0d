// The viewfinder: the picture, the detail circle, what is meant now, and in words why there is no picture. The
// circle is drawn where the scanner aims.
import { useEffect, useRef } from 'preact/hooks';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { boxToPicture } from '../../scan/aim.ts';
import { PlainButton } from '../parts/form.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { failureToWords } from './camera/cameraWords.ts';
import type { WalkCamera } from './walkCamera.ts';
import { FinderMarks } from './walkFinderMarks.tsx';
import type { WalkFlow } from './walkFlowType.ts';
import { labelToShow } from './walkState.ts';

export function Finder(props: { flow: WalkFlow; camera: WalkCamera; view: WalkView }) {
  const { flow, camera, view } = props;
  const holder = useRef<HTMLDivElement>(null);
  useEffect(() => {
    holder.current?.append(camera.place);
  }, []);
  const state = camera.state.value;
  const runs = state.type === 'scanning' || state.type === 'paused';
  // A picture that begins takes room from the drawing on a small phone: the jack in hand comes back into sight.
  useEffect(() => {
    document.querySelector('.jack-window [aria-current="true"]')?.scrollIntoView({ block: 'nearest' });
  }, [runs]);
  const words = state.type === 'failed' ? failureToWords(state.failure) : null;
  return (
    <section class="finder" aria-label="Viewfinder">
      <div class={`finder-holder${runs || state.type === 'starting' ? '' : ' finder-off'}`}>
        <div class="finder-frame" ref={holder} />
        {runs && (
          <>
            {camera.can.value.focus && (
              <button type="button" class="finder-touch" aria-label="Focus" onClick={(e) => void focusAt(e, camera)} />
            )}
            <svg class="finder-circle" viewBox="-50 -50 100 100" aria-hidden="true" focusable="false">
              <circle r="48.6" class="finder-casing" vector-effect="non-scaling-stroke" />
              <circle r="48.6" class="finder-line" vector-effect="non-scaling-stroke" />
            </svg>
            <FinderMarks flow={flow} camera={camera} />
          </>
        )}
        {state.type === 'starting' && <p class="finder-words">Starting the camera.</p>}
        {state.type === 'off' && camera.resting.value && (
          <button type="button" class="finder-words finder-rests" onClick={() => void camera.start()}>
            Camera paused. Touch to start
          </button>
        )}
        {state.type === 'off' && !camera.resting.value && (
          <div class="finder-words">
            <PlainButton onPress={() => void camera.start()}>Start camera</PlainButton>
            <p>It reads codes. Plain text: type it or tap below.</p>
          </div>
        )}
        {words && (
          <div class="finder-words" role="alert">
            <p>
              <strong>{words.what}</strong> {words.todo}
            </p>
            <PlainButton onPress={() => void camera.restart()}>Start again</PlainButton>
          </div>
        )}
      </div>
      <div class="finder-now">
        <span>
          Now <Ident text={view.current.jack} />.{' '}
          {view.blind ? (
            'The plan is hidden.'
          ) : !view.hasPlan ? (
            'There is no plan.'
          ) : view.current.plan === null ? (
            'Plan has nothing here.'
          ) : (
            <>
              Plan <CableLabel text={labelToShow(view.current.plan)} variant="plan" />
            </>
          )}
        </span>
        {runs && camera.can.value.torch && (
          <button
            type="button"
            class="finder-tools finder-torch"
            onClick={() => void camera.setTorch(!camera.torch.peek())}
          >
            {camera.torch.value ? 'Torch off' : 'Torch on'}
          </button>
        )}
        {runs ? (
          <button
            type="button"
            class="finder-tools"
            onClick={() => {
              flow.sheet.value = { type: 'camera' };
            }}
          >
            Camera
          </button>
        ) : (
          <span class="finder-hint">Record it below</span>
        )}
      </div>
    </section>
  );
}

/** Where the finger was, as a share of the camera's picture. */
async function focusAt(event: MouseEvent, camera: WalkCamera): Promise<void> {
  const video = camera.scanner.peek()?.video();
  if (!video) return;
  const box = camera.place.getBoundingClientRect();
  const picture = { width: video.videoWidth, height: video.videoHeight };
  const at = boxToPicture({ x: event.clientX - box.left, y: event.clientY - box.top }, picture, box);
  const share = (part: number, whole: number) => Math.min(1, Math.max(0, part / whole));
  await camera.scanner.peek()?.focus({ x: share(at.x, picture.width), y: share(at.y, picture.height) });
}

// A small viewfinder inside a form: reads one label into a field, or takes one photo. It owns its stream from the press
// until the label is read, the picture taken or the form left.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { LONG_SIDE_WHOLE } from '../../core/report/photoMarks.ts';
import type { CameraScanner } from '../../scan/camera.ts';
import { useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { failureToWords } from '../walk/camera/cameraWords.ts';

type State = { type: 'off' } | { type: 'starting' } | { type: 'on' } | { type: 'failed'; words: string };

export function InlineCamera(props: {
  /** Words of the button that starts it. */
  start: string;
  /** Given the text of a label, for scanning. */
  onText?: ((text: string) => void) | undefined;
  /** Given a picture, for a photo; answers what to say about it. */
  onPhoto?: ((picture: Blob) => Promise<string>) | undefined;
}) {
  const services = useServices();
  const place = useRef<HTMLDivElement>(null);
  const state = useSignal<State>({ type: 'off' });
  const told = useSignal<string | null>(null);
  const camera = useRef<CameraScanner | null>(null);
  const gone = useRef(false);
  const stop = async () => {
    const running = camera.current;
    camera.current = null;
    if (!gone.current) state.value = { type: 'off' };
    await running?.stop();
  };
  useEffect(
    () => () => {
      gone.current = true;
      void stop();
    },
    [],
  );
  const start = async () => {
    if (!place.current || state.value.type === 'starting') return;
    told.value = null;
    state.value = { type: 'starting' };
    const made = await services.camera(place.current);
    camera.current = made;
    made.onReading(({ text }) => {
      if (!props.onText || !camera.current) return;
      props.onText(text.trim());
      told.value = 'Read.';
      void stop();
    });
    const began = await made.start();
    if (gone.current) return void made.stop();
    if (began.type === 'started') state.value = { type: 'on' };
    else if (began.type === 'failed') {
      const words = failureToWords(began.failure);
      state.value = { type: 'failed', words: `${words.what} ${words.todo}` };
      camera.current = null;
    }
  };
  const take = async () => {
    const picture = await camera.current?.takePhoto(LONG_SIDE_WHOLE);
    if (picture?.type !== 'picture') {
      told.value = 'No picture came. Start the camera again.';
      return;
    }
    await stop();
    told.value = (await props.onPhoto?.(picture.blob)) ?? null;
  };
  const now = state.value;
  return (
    <div class="inline-camera">
      <div ref={place} class={now.type === 'off' || now.type === 'failed' ? 'only-spoken' : 'inline-finder'} />
      {now.type === 'failed' && <p role="alert">{now.words}</p>}
      <div class="inline-buttons">
        {now.type === 'on' && props.onPhoto && (
          <PlainButton primary onPress={() => void take()}>
            Take the photo
          </PlainButton>
        )}
        {now.type === 'off' || now.type === 'failed' ? (
          <PlainButton onPress={() => void start()}>{props.start}</PlainButton>
        ) : (
          <PlainButton onPress={() => void stop()}>Stop the camera</PlainButton>
        )}
      </div>
      <p class="quiet" role="status">
        {told.value}
      </p>
    </div>
  );
}

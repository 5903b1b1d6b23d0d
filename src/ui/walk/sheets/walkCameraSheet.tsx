// The camera's sheet: light, zoom, which camera, a still picture, whether the screen stays on. It changes how labels
// are read, never what was said.
import { type Signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { CameraChoice } from '../../../scan/cameraStream.ts';
import type { Reading } from '../../../scan/scanner.ts';
import type { WakeState } from '../../feel/wakeLock.ts';
import { zoomPressed } from '../../feel/zoom.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { CheckRow, PlainButton } from '../../parts/form.tsx';
import { Ident } from '../../parts/label.tsx';
import { Row } from '../../parts/rows.tsx';
import type { WalkCamera } from '../walkCamera.ts';
import type { SheetProps } from '../walkSheetProps.ts';

const WAKE_WORDS: Readonly<Record<WakeState, string>> = {
  held: 'The screen stays on while the walk is open.',
  off: 'The screen may turn off at the moment.',
  missing: 'This browser does not keep the screen on. Set a longer auto-lock on the phone.',
  refused: 'The phone did not keep the screen on, often because the battery is low. Set a longer auto-lock.',
};

export function CameraSheet({ flow, camera, close }: SheetProps) {
  const { torch: hasTorch, zoom, focus } = camera.can.value;
  const refused = useSignal<string | null>(null);
  const torch = async (on: boolean) => {
    refused.value = (await camera.setTorch(on)) ? null : 'The camera refused that.';
  };
  const then = (act: () => void) => () => {
    close();
    act();
  };
  return (
    <Dialog
      title="Camera"
      onClose={close}
      rows={[
        [
          { big: 'Stop it', onPress: then(() => void camera.stop()) },
          { big: 'Restart it', onPress: then(() => void camera.restart()) },
          { big: 'Done', primary: true, onPress: close },
        ],
      ]}
    >
      {hasTorch && (
        <CheckRow
          text="Torch"
          second="Do not shine the torch into eyes on air or at smoke detectors."
          checked={camera.torch.value}
          onChange={(on) => void torch(on)}
        />
      )}
      {zoom && <Zoom camera={camera} range={zoom} />}
      {focus && <p class="camera-sheet-part">Touch the picture to focus there.</p>}
      {!hasTorch && !zoom && <p>This camera offers neither torch nor zoom here. Move back until the label is sharp.</p>}
      {refused.value && <p role="alert">{refused.value}</p>}
      <Cameras camera={camera} />
      <Still
        camera={camera}
        refused={refused}
        onRead={(reading) => {
          close();
          flow.read(reading);
        }}
      />
      <Row
        title="Read the label once more"
        second="A label in view is read once; this reads it again."
        onPress={then(() => camera.scanner.value?.again())}
      />
      <p class="quiet camera-sheet-part">{WAKE_WORDS[camera.wake.value]}</p>
    </Dialog>
  );
}

/** Which camera, where the phone has several. */
function Cameras({ camera }: { camera: WalkCamera }) {
  const scanner = camera.scanner.value;
  const cameras = useSignal<CameraChoice[]>([]);
  const now = useSignal(scanner?.current()?.id ?? null);
  useEffect(() => {
    void scanner?.cameras().then((result) => {
      if (result.type === 'cameras') cameras.value = result.cameras;
    });
  }, []);
  if (cameras.value.length < 2) return null;
  return (
    <>
      {cameras.value.map((one) => (
        <Row
          key={one.id}
          title={one.label || 'Camera without a name'}
          current={one.id === now.value}
          right={one.id === now.value ? 'in use' : undefined}
          onPress={() => {
            now.value = one.id;
            void camera.choose(one);
          }}
        />
      ))}
    </>
  );
}

/** A label read from a picture that was taken before; of several in it the person takes one. */
function Still(props: { camera: WalkCamera; refused: Signal<string | null>; onRead: (reading: Reading) => void }) {
  const { camera, refused, onRead } = props;
  const several = useSignal<readonly Reading[]>([]);
  const read = async (file: File) => {
    refused.value = null;
    several.value = [];
    const result = await camera.scanner.value?.readStill(file);
    if (result?.type === 'read') onRead(result.reading);
    else if (result?.type === 'several') several.value = result.readings;
    else
      refused.value =
        result?.type === 'nothing' ? 'No code was found in the picture.' : 'The picture could not be read.';
  };
  return (
    <>
      <div class="camera-sheet-part">
        <label class="plain-button">
          Read a label from a picture
          <input
            type="file"
            class="only-spoken"
            accept="image/*"
            onChange={(e) => {
              const [file] = e.currentTarget.files ?? [];
              if (file) void read(file);
            }}
          />
        </label>
      </div>
      {several.value.map((reading) => (
        <Row
          key={reading.text}
          title={<Ident text={reading.show} />}
          second="in the picture"
          onPress={() => onRead(reading)}
        />
      ))}
    </>
  );
}

function Zoom({ camera, range }: { camera: WalkCamera; range: { min: number; max: number; step: number } }) {
  const now = camera.zoom.value;
  const press = (way: 1 | -1) => void camera.setZoom(zoomPressed(range, camera.zoom.peek(), way), true);
  return (
    <div class="camera-sheet-part">
      <p>
        Zoom <span class="ident">{now.toFixed(1)}</span>, remembered on this phone
      </p>
      <div class="feel-zoom">
        <PlainButton disabled={now <= range.min} onPress={() => press(-1)}>
          −<span class="only-spoken"> less zoom</span>
        </PlainButton>
        <input
          class="walk-zoom"
          type="range"
          aria-label="Zoom"
          min={range.min}
          max={range.max}
          step={range.step}
          value={now}
          onInput={(e) => void camera.setZoom(Number(e.currentTarget.value), false)}
          onChange={(e) => void camera.setZoom(Number(e.currentTarget.value), true)}
        />
        <PlainButton disabled={now >= range.max} onPress={() => press(1)}>
          +<span class="only-spoken"> more zoom</span>
        </PlainButton>
      </div>
    </div>
  );
}

// Sheets that change how the walk goes: what may be done, which camera, the end of the audit.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { PERMISSIONS, type Permission } from '../../core/audit/events.ts';
import type { CameraChoice } from '../../scan/cameraStream.ts';
import type { Reading } from '../../scan/scanner.ts';
import { useServices } from '../context.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field, PlainButton } from '../parts/form.tsx';
import { Ident } from '../parts/label.tsx';
import { Row } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { count } from './homeWords.ts';
import { PERMISSION_WORDS } from './startDraft.ts';
import type { SheetProps } from './walkSheets.tsx';
import { useDraftText } from './walkSheetsText.tsx';

export function PermissionSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const set = async (permission: Permission) => {
    close();
    await services.record('permission-set', { permission }, { audit: flow.audit });
  };
  return (
    <Dialog title="What may be done here?" onClose={close} rows={[[{ big: 'Back out', onPress: close }]]}>
      <p>Whoever answers for the air decides this, not the phone.</p>
      {PERMISSIONS.map((one) => (
        <Row
          key={one}
          title={PERMISSION_WORDS[one].text}
          second={PERMISSION_WORDS[one].second}
          onPress={() => void set(one)}
        />
      ))}
    </Dialog>
  );
}

export function CameraSheet({ flow, camera, close }: SheetProps) {
  const services = useServices();
  const scanner = camera.scanner.value;
  const can = scanner?.capabilities() ?? { torch: false, zoom: null };
  const cameras = useSignal<CameraChoice[]>([]);
  const now = useSignal(scanner?.current()?.id ?? null);
  const refused = useSignal<string | null>(null);
  useEffect(() => {
    void scanner?.cameras().then((result) => {
      if (result.type === 'cameras') cameras.value = result.cameras;
    });
  }, []);
  const several = useSignal<readonly Reading[]>([]);
  const take = (reading: Reading) => {
    close();
    flow.read(reading);
  };
  const still = async (file: File) => {
    refused.value = null;
    several.value = [];
    const result = await scanner?.readStill(file);
    if (result?.type === 'read') take(result.reading);
    else if (result?.type === 'several') several.value = result.readings;
    else
      refused.value =
        result?.type === 'nothing' ? 'No code was found in the picture.' : 'The picture could not be read.';
  };
  const torch = async (on: boolean) => {
    if (!(await scanner?.torch(on))) refused.value = 'The camera did not take that.';
  };
  return (
    <Dialog
      title="Camera"
      onClose={close}
      rows={[
        [
          {
            big: 'Stop it',
            onPress: () => {
              close();
              void camera.stop();
            },
          },
          {
            big: 'Start it anew',
            onPress: () => {
              close();
              void camera.restart();
            },
          },
          { big: 'Done', primary: true, onPress: close },
        ],
      ]}
    >
      {can.torch && (
        <p>
          <PlainButton onPress={() => void torch(true)}>Torch on</PlainButton>{' '}
          <PlainButton onPress={() => void torch(false)}>Torch off</PlainButton>
        </p>
      )}
      {can.torch && <p>No torch into eyes on air or at smoke heads.</p>}
      {can.zoom && (
        <label>
          Zoom
          <input
            class="walk-zoom"
            type="range"
            min={can.zoom.min}
            max={can.zoom.max}
            step={can.zoom.step}
            onInput={(e) => void scanner?.zoom(Number(e.currentTarget.value))}
          />
        </label>
      )}
      {!can.torch && !can.zoom && (
        <p>This camera offers neither torch nor zoom here. Move back until the label is sharp.</p>
      )}
      {refused.value && <p role="alert">{refused.value}</p>}
      {cameras.value.length > 1 &&
        cameras.value.map((one) => (
          <Row
            key={one.id}
            title={one.label || 'Camera without a name'}
            current={one.id === now.value}
            right={one.id === now.value ? 'in use' : undefined}
            onPress={() => {
              now.value = one.id;
              services.settings.value = { ...services.settings.value, camera: one };
              void scanner?.useCamera(one);
            }}
          />
        ))}
      <label class="plain-button">
        Read a label from a picture
        <input
          type="file"
          class="only-spoken"
          accept="image/*"
          onChange={(e) => {
            const [file] = e.currentTarget.files ?? [];
            if (file) void still(file);
          }}
        />
      </label>
      {several.value.map((reading) => (
        <Row
          key={reading.text}
          title={<Ident text={reading.show} />}
          second="in the picture"
          onPress={() => take(reading)}
        />
      ))}
      <Row
        title="Read the label once more"
        second="A label in view is read once; this reads it again."
        onPress={() => {
          close();
          scanner?.again();
        }}
      />
    </Dialog>
  );
}

export function FinishSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const view = flow.view.value;
  const remark = useDraftText(`finish:${flow.audit}`);
  const left = view && view !== 'loading' ? view.leftAll : 0;
  const finish = async () => {
    const result = await services.record('audit-closed', { remark: remark.text.trim() }, { audit: flow.audit });
    if (result.type === 'not-saved') {
      flow.line.value = `The audit is not closed: ${result.why}`;
      close();
      return;
    }
    remark.drop();
    go({ screen: 'report', audit: flow.audit });
  };
  return (
    <Dialog
      title="Close the audit?"
      onClose={close}
      rows={[
        [
          { big: 'Back out', onPress: close },
          { big: 'Close it', primary: true, share: 2, onPress: () => void finish() },
        ],
      ]}
    >
      <p>
        {left === 0
          ? 'Every jack in scope has a statement.'
          : `${count(left, 'jack')} ${left === 1 ? 'has' : 'have'} no statement; the report says so.`}
      </p>
      <Field label="Remark for the report" lines={3} value={remark.text} onInput={remark.set} />
    </Dialog>
  );
}

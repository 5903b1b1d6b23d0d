// The part of More about pictures and sound: gallery of the jack, the whole unit in one picture, a spoken note, labels
// read later. Opens sheets and moves; records nothing by itself.
import { useAsked, useServices } from '../../context.ts';
import { Row } from '../../parts/rows.tsx';
import { go } from '../../router.ts';
import { count } from '../../words.ts';
import { placeOf } from '../sheets/walkSheetsText.tsx';
import { takePhoto } from '../walkPhoto.ts';
import type { SheetProps } from '../walkSheetProps.ts';

export function MorePhotos({ flow, camera, close }: SheetProps) {
  const services = useServices();
  const at = placeOf(flow);
  const here = useAsked('photos', { audit: flow.audit, place: at?.place ?? '' });
  const list = useAsked('toRead', { audit: flow.audit });
  const view = flow.view.value;
  if (!at || !view || view === 'loading') return null;
  const photos = here.type === 'ready' ? (here.value?.photos.length ?? 0) : 0;
  const voices = here.type === 'ready' ? (here.value?.voices.length ?? 0) : 0;
  const left = list.type === 'ready' ? (list.value?.left ?? 0) : 0;
  const { place, words } = at;
  return (
    <>
      <Row
        title={`Photos at ${words}`}
        right={photos + voices > 0 ? `${count(photos, 'photo')}, ${count(voices, 'voice note')}` : undefined}
        second="Look closely, draw an arrow or a circle, withdraw one."
        onPress={() => {
          flow.sheet.value = { type: 'photos', place, words };
        }}
      />
      <Row
        title="Voice note"
        second="Spoken, two minutes at most. Not beside a live microphone."
        onPress={() => {
          flow.sheet.value = { type: 'voice', place, words };
        }}
      />
      <Row
        title={`Photo of the whole ${view.side} of ${at.unitLabel}`}
        second="Then touch each jack on it; its labels can be read later."
        onPress={() => {
          close();
          const whole = { place: at.unit, words: `the whole ${view.side} of ${at.unitLabel}`, whole: true };
          void takePhoto(services, flow, camera, whole);
        }}
      />
      <Row
        title="Read labels from photos"
        right={left > 0 ? `${count(left, 'jack')} to read` : undefined}
        second="Sitting down, or by somebody else on another phone."
        onPress={() => go({ screen: 'photos', audit: flow.audit })}
      />
    </>
  );
}

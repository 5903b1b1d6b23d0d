// Sheets about pictures and sound at one place: what photos may show, the gallery with voice notes, speaking one.
import { useSignal } from '@preact/signals';
import type { PhotoView } from '../../../core/report/photosView.ts';
import { useAsked, useServices } from '../../context.ts';
import { FLAG } from '../../drafts/draftKind.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Row } from '../../parts/rows.tsx';
import { marksToWords } from '../../photos/photosWords.ts';
import { PhotoThumb } from '../../photos/photoThumb.tsx';
import { PhotoViewer } from '../../photos/photoViewer.tsx';
import { VoicePlayer } from '../../photos/voicePlayer.tsx';
import { count, timeToWords } from '../../words.ts';
import { cautionKey, takePhoto } from '../walkPhoto.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import type { PhotoSheetState } from './walkSheet.ts';
import { VoiceSheet } from './walkVoiceSheet.tsx';

export function PhotoSheets(props: SheetProps & { sheet: PhotoSheetState }) {
  const { sheet } = props;
  if (sheet.type === 'voice') return <VoiceSheet {...props} place={sheet.place} words={sheet.words} />;
  if (sheet.type === 'photo-caution') return <CautionSheet {...props} />;
  return <Gallery {...props} />;
}

/** Once in an audit, before the first photo; read again from the gallery and in the help. */
function CautionSheet({ flow, camera, close, sheet }: SheetProps & { sheet: PhotoSheetState }) {
  const services = useServices();
  const { again = false, place, words, whole } = sheet;
  return (
    <Dialog
      title="Photos show more than labels"
      onClose={close}
      rows={[
        again
          ? [{ big: 'Read it', primary: true, onPress: close }]
          : [
              { big: 'Cancel', onPress: close },
              {
                small: 'Shown once in each audit',
                big: 'Take the photo',
                primary: true,
                share: 2,
                onPress: () => {
                  void services.saveDraft(cautionKey(flow.audit), true, FLAG);
                  close();
                  void takePhoto(services, flow, camera, { place, words, whole }, true);
                },
              },
            ],
      ]}
    >
      <PhotoCaution />
    </Dialog>
  );
}

export function PhotoCaution() {
  return (
    <>
      <p>
        Passwords on notes and screens, addresses, faces, guest lists: check what is behind the jack first. A photo goes
        to the station’s phones, its server and into reports; withdrawing it does not delete those copies.
      </p>
      <p>
        The camera’s location and time are removed from the picture. No flash near smoke heads, eyes or cameras on air.
        House rules may forbid photos: ask.
      </p>
    </>
  );
}

function Gallery({ flow, camera, close, sheet }: SheetProps & { sheet: PhotoSheetState }) {
  const services = useServices();
  const { place, words } = sheet;
  const asked = useAsked('photos', { audit: flow.audit, place });
  const open = useSignal<string | null>(sheet.open ?? null);
  const view = asked.type === 'ready' ? asked.value : null;
  if (open.value !== null) {
    return (
      <PhotoViewer
        audit={flow.audit}
        document={open.value}
        tool={sheet.open === open.value ? 'pin' : 'look'}
        onClose={() => {
          // A whole unit was just taken: its pins are set, so the walk goes on.
          if (sheet.open === open.value) close();
          else open.value = null;
        }}
      />
    );
  }
  const at = { place, words, ...(sheet.whole ? { whole: true } : {}) };
  return (
    <Dialog
      title={`Photos at ${words}`}
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          {
            big: 'Voice note',
            onPress: () => {
              flow.sheet.value = { type: 'voice', place, words };
            },
          },
          {
            big: 'Take a photo',
            primary: true,
            onPress: () => {
              close();
              void takePhoto(services, flow, camera, at);
            },
          },
        ],
      ]}
    >
      {view?.photos.length === 0 && view.voices.length === 0 && (
        <p>None yet. A photo is recorded with this place and the time.</p>
      )}
      {view?.photos.map((photo) => (
        <PhotoRow
          key={photo.event}
          photo={photo}
          now={services.now()}
          here={place}
          onPress={() => {
            open.value = photo.document;
          }}
        />
      ))}
      {view?.voices.map((voice) => (
        <VoicePlayer
          key={voice.event}
          voice={voice}
          onTakeBack={() =>
            void services.record('withdrawn', { target: { event: voice.event }, why: 'undo' }, { audit: flow.audit })
          }
        />
      ))}
      <Row
        title="What photos may show"
        second="Passwords, addresses, faces: read the warning again."
        onPress={() => {
          flow.sheet.value = { type: 'photo-caution', place, words, again: true };
        }}
      />
    </Dialog>
  );
}

/** A jack's name is an identifier; a whole unit is said in words. */
function PhotoWords({ photo }: { photo: PhotoView }) {
  return <>{photo.whole ? photo.words : <span class="ident">{photo.words}</span>}, </>;
}

export function PhotoRow(props: {
  photo: PhotoView;
  now: number;
  here?: string | null;
  waits?: string;
  onPress: () => void;
}) {
  const { photo } = props;
  const more = [
    props.waits,
    marksToWords(photo.marks),
    photo.pins.length > 0 && `${count(photo.pins.length, 'jack')} pinned`,
  ];
  return (
    <button type="button" class="photo-row" onClick={props.onPress}>
      <PhotoThumb photo={photo} />
      <span class="photo-row-text">
        <span>
          {photo.place !== (props.here ?? null) && <PhotoWords photo={photo} />}
          {timeToWords(photo.at, props.now)}
        </span>
        <span class="row-second">{[photo.author, ...more].filter(Boolean).join(', ')}</span>
      </span>
    </button>
  );
}

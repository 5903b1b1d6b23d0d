// The photos and voice notes in the report: small, with their marks, place and time; each opens over the whole screen.
import { useSignal } from '@preact/signals';
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { count } from '../home/homeWords.ts';
import { PlainButton } from '../parts/form.tsx';
import { SectionHead } from '../parts/rows.tsx';
import { PhotoThumb } from '../photos/photoThumb.tsx';
import { PhotoViewer } from '../photos/photoViewer.tsx';
import { VoicePlayer } from '../photos/voicePlayer.tsx';
import { go } from '../router.ts';
import { dayAndClock } from '../times.ts';

const STEP = 12;

export function ReportPhotos({ report }: { report: Reconciliation }) {
  const { photos, voices } = report.media;
  const shown = useSignal(STEP);
  const open = useSignal<string | null>(null);
  if (photos.length + voices.length === 0) return null;
  const waits = new Set(photos.flatMap(({ pins }) => pins.filter((pin) => pin.open).map(({ place }) => place))).size;
  return (
    <>
      <SectionHead
        strong
        title="Photos and voice notes"
        right={[
          photos.length > 0 && count(photos.length, 'photo'),
          voices.length > 0 && count(voices.length, 'voice note'),
        ]
          .filter(Boolean)
          .join(', ')}
      />
      <div class="photo-list">
        {photos.slice(0, shown.value).map((photo) => (
          <button
            key={photo.event}
            type="button"
            class="photo-row"
            onClick={() => {
              open.value = photo.document;
            }}
          >
            <PhotoThumb photo={photo} alt={`Photo of ${photo.words}`} />
            <span class="photo-row-text">
              <span class={photo.whole ? undefined : 'ident'}>{photo.words}</span>
              <span class="row-second">
                {photo.author}, {dayAndClock(photo.at)}
                {photo.pins.length > 0 && `, ${count(photo.pins.length, 'jack')} pinned`}
              </span>
            </span>
          </button>
        ))}
        {voices.map((voice) => (
          <VoicePlayer key={voice.event} voice={voice} place />
        ))}
      </div>
      <div class="desk-part no-print">
        {photos.length > shown.value && (
          <PlainButton
            onPress={() => {
              shown.value += STEP;
            }}
          >
            Show more; {photos.length - shown.value} are left
          </PlainButton>
        )}
        {waits > 0 && (
          <PlainButton onPress={() => go({ screen: 'photos', audit: report.audit })}>
            Read labels from photos: {count(waits, 'jack')} to read
          </PlainButton>
        )}
      </div>
      {open.value !== null && (
        <PhotoViewer
          audit={report.audit}
          document={open.value}
          onClose={() => {
            open.value = null;
          }}
        />
      )}
    </>
  );
}

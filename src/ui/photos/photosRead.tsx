// Labels read off photos, sitting down or by somebody else: the photos with pinned jacks that wait, then one jack after
// the other, enlarged, with the answers of the walk. It never shows planned labels in a blind audit.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import type { ReadingList } from '../../core/report/photosView.ts';
import { useAsked, useServices } from '../context.ts';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Empty, SectionHead } from '../parts/rows.tsx';
import { back, NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { NameFirst } from '../settings/nameFirst.tsx';
import { PhotoRow } from '../walk/sheets/walkSheetsPhotos.tsx';
import { count } from '../words.ts';
import { PhotoReading } from './photosReading.tsx';
import { nextStop, type ReadStop, readStops } from './photosReadState.ts';
import { PhotoViewer } from './photoViewer.tsx';
import '../look/desk.css';
import '../look/photo.css';

export default function PhotosRead(props: { audit: AuditId }) {
  return (
    <>
      <NameFirst audit={props.audit} />
      <ToRead {...props} />
    </>
  );
}

function ToRead({ audit }: { audit: AuditId }) {
  const asked = useAsked('toRead', { audit });
  const passed = useSignal<ReadonlySet<string>>(new Set());
  const inHand = useSignal<string | null>(null);
  if (asked.type !== 'ready' || asked.value === null)
    return (
      <NoAnswer
        title="Read labels from photos"
        asked={asked}
        missing="This audit is not on this phone, or its plan has not arrived yet."
        next="Press Send and receive to fetch both."
      />
    );
  const stops = readStops(asked.value, passed.value);
  const open = (document: string) => {
    inHand.value = document;
  };
  if (inHand.value === null) return <Waiting audit={audit} list={asked.value} begin={stops[0] ?? null} open={open} />;
  return (
    <PhotoReading
      audit={audit}
      stop={nextStop(stops, inHand.value)}
      left={stops.length}
      onPass={(place) => {
        passed.value = new Set([...passed.value, place]);
      }}
      onBack={(place) => {
        passed.value = new Set([...passed.value].filter((one) => one !== place));
      }}
      onPhoto={open}
      onClose={() => {
        inHand.value = null;
        passed.value = new Set();
      }}
    />
  );
}

function Waiting(props: {
  audit: AuditId;
  list: ReadingList;
  begin: ReadStop | null;
  open: (document: string) => void;
}) {
  const { audit, list, begin, open } = props;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[
            { small: 'From photos', big: 'Read labels', heading: true, wide: true },
            { small: 'To read', big: String(list.left) },
            { small: 'Read', big: String(list.read) },
          ]}
        />
      }
      foot={
        begin && (
          <TitleBlock
            rows={[
              [
                {
                  small: begin.photo.words,
                  big: `Start at ${begin.pin.words}`,
                  primary: true,
                  onPress: () => open(begin.photo.document),
                },
              ],
            ]}
          />
        )
      }
    >
      {list.photos.length === 0 && list.unpinned.length === 0 && (
        <Empty
          what={list.read > 0 ? 'Every pinned jack has an entry.' : 'There is no photo with pinned jacks to read.'}
          why="In the walk, under More, photograph a whole unit and touch its jacks on the photo. They are listed here until somebody has read them."
          next={{ text: 'To the walk', onPress: () => go({ screen: 'walk', audit, place: null }) }}
        />
      )}
      <Photos audit={audit} list={list} open={open} />
    </Screen>
  );
}

function Photos({ audit, list, open }: { audit: AuditId; list: ReadingList; open: (document: string) => void }) {
  const now = useServices().now();
  const viewing = useSignal<string | null>(null);
  const view = (document: string | null) => () => {
    viewing.value = document;
  };
  return (
    <>
      <div class="photo-list">
        {list.photos.map(({ photo, open: jacks }) => (
          <PhotoRow
            key={photo.document}
            photo={photo}
            now={now}
            waits={`${count(jacks.length, 'jack')} to read`}
            onPress={() => open(photo.document)}
          />
        ))}
        {list.unpinned.length > 0 && (
          <SectionHead title="No jack pinned yet" right={count(list.unpinned.length, 'photo')} />
        )}
        {list.unpinned.map((photo) => (
          <PhotoRow key={photo.document} photo={photo} now={now} onPress={view(photo.document)} />
        ))}
      </div>
      {viewing.value !== null && <PhotoViewer audit={audit} document={viewing.value} tool="pin" onClose={view(null)} />}
    </>
  );
}

// One photo over the whole screen: looked at closely, drawn on, its jacks pinned, taken back. Each stroke and each pin
// is an event of its own, so that a kill costs none; the picture stays as it was taken.

import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { AuditId } from '../../core/plan/identity.ts';
import type { PhotoMark, Spot } from '../../core/record/events.ts';
import type { PhotoView } from '../../core/report/photosView.ts';
import { useAsked, useServices } from '../context.ts';
import { saveFailureToMessage } from '../messages.ts';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Empty } from '../parts/rows.tsx';
import type { Recorded } from '../services.ts';
import { dayAndClock } from '../times.ts';
import { ABSENT, ABSENT_WHY, useMediaUrl } from './mediaUrl.ts';
import { type Look, WHOLE, ZOOM_STEP, zoomed } from './photo-geometry.ts';
import { PhotoStage } from './photo-stage.tsx';
import { PinJack } from './photoPinJack.tsx';
import { createPinning } from './photoPinning.ts';
import { drawnToWords, marksToWords, stageToWords, type Tool } from './photosWords.ts';
import '../look/photo.css';

interface ViewerProps {
  audit: AuditId;
  document: string;
  onClose: () => void;
  /** A whole unit that was just taken waits for its pins. */
  tool?: Tool | undefined;
  /** Told when the photo was taken back. */
  onGone?: (() => void) | undefined;
}

export function PhotoViewer(props: ViewerProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    dialog.current?.showModal();
    return () => {
      dialog.current?.close();
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      class="photo-full"
      aria-label="Photo"
      onCancel={(e) => {
        e.preventDefault();
        props.onClose();
      }}
    >
      <Viewer {...props} />
    </dialog>
  );
}

function Viewer(props: ViewerProps) {
  const { audit, document, onClose } = props;
  const asked = useAsked('photo', { audit, document });
  const tool = useSignal<Tool>(props.tool ?? 'look');
  const look = useSignal<Look>(WHOLE);
  const gone = useSignal(false);
  const line = useSignal<string | null>(null);
  const pins = usePins(audit, document, line);
  const found = asked.type === 'ready' ? asked.value : null;
  const photo = found?.photo ?? null;
  const to = (want: Tool) => () => {
    tool.value = want;
    line.value = null;
  };
  const zoomCells: CellProps[] = [
    { big: '−', name: 'Zoom out', onPress: zoomBy(look, 1 / ZOOM_STEP), disabled: look.value.zoom === 1 },
    { big: '+', name: 'Zoom in', onPress: zoomBy(look, ZOOM_STEP) },
  ];
  const done: CellProps = { big: 'Done', primary: true, onPress: to('look') };
  const rowsOf = (now: Tool): CellProps[][] => {
    switch (now) {
      case 'look':
        return [
          [
            ...zoomCells,
            { big: 'Arrow', onPress: to('arrow') },
            { big: 'Circle', onPress: to('circle') },
            { big: 'Pin jacks', onPress: to('pin') },
          ],
          [
            { big: 'Withdraw', onPress: turn(gone, true) },
            { big: 'Close', primary: true, share: 2, onPress: onClose },
          ],
        ];
      case 'pin':
        return [
          [
            ...zoomCells,
            { big: 'Another jack', onPress: turn(pins.choosing, true) },
            { big: 'Undo', disabled: !found?.lastPin, onPress: () => void pins.undo('lastPin', 'the last pin') },
          ],
          [done],
        ];
      case 'arrow':
      case 'circle':
        return [
          [
            ...zoomCells,
            { big: 'Undo', disabled: !found?.lastMark, onPress: () => void pins.undo('lastMark', 'the last mark') },
            { ...done, share: 2 },
          ],
        ];
    }
  };
  if (gone.value && photo) {
    return <Withdraw {...props} photo={photo} onCancel={turn(gone, false)} />;
  }
  return (
    <Screen
      plate={plateOf(photo, onClose)}
      above={
        <p class="photo-line" role="status">
          {line.value && <>{line.value} </>}
          {photo && hint(tool.value, photo, pins.next)}
        </p>
      }
      foot={<TitleBlock rows={rowsOf(tool.value)} />}
    >
      {asked.type === 'ready' && !photo && <Empty what="This photo was withdrawn, or has not arrived." />}
      {photo && <Shown photo={photo} tool={tool.value} look={look} pins={pins} />}
      {pins.question}
    </Screen>
  );
}

type Pins = ReturnType<typeof usePins>;

/** Jacks pinned one after the other, marks drawn, and either taken back; what came of it stands in `line`. */
function usePins(audit: AuditId, document: string, line: Signal<string | null>) {
  const services = useServices();
  const unit = useSignal<string | null>(null);
  /** A jack chosen by hand, for the next touch only. */
  const chosen = useSignal<string | null>(null);
  const choosing = useSignal(false);
  const pinning = useMemo(() => createPinning(services, audit, document), [audit, document]);
  const choice = useAsked('pinChoice', { audit, document, unit: unit.value });
  const jacks = choice.type === 'ready' ? choice.value : null;
  const told = (result: Recorded, words: string) => {
    if (result.type === 'saved') line.value = words;
    else {
      const { what, todo } = saveFailureToMessage(result.why);
      line.value = `${what} ${todo}`;
    }
  };
  return {
    /** The jack that the next touch means. */
    next: jacks?.jacks.find(({ place }) => place === (chosen.value ?? jacks.next))?.label ?? null,
    choosing,
    draw: async (mark: PhotoMark) => {
      const result = await services.record('photo-marked', { document, marks: [mark] }, { audit });
      told(result, drawnToWords(mark.shape));
    },
    pin: async (at: Spot) => {
      const byHand = chosen.peek();
      chosen.value = null;
      const pinned = await pinning.pin(at, unit.peek(), byHand);
      if (pinned.type === 'pinned') told(pinned.result, `${pinned.label} pinned.`);
    },
    undo: async (kind: 'lastPin' | 'lastMark', words: string) => {
      const result = await pinning.undo(kind);
      if (result) told(result, `Undone: ${words}.`);
    },
    question: choosing.value && jacks && (
      <PinJack
        choice={jacks}
        onClose={turn(choosing, false)}
        onUnit={(want) => {
          unit.value = want;
          chosen.value = null;
        }}
        onJack={(place) => {
          chosen.value = place;
          choosing.value = false;
        }}
      />
    ),
  };
}

function turn(flag: Signal<boolean>, to: boolean) {
  return () => {
    flag.value = to;
  };
}

function zoomBy(look: Signal<Look>, factor: number) {
  return () => {
    look.value = zoomed(look.value, factor);
  };
}

function Shown(props: { photo: PhotoView; tool: Tool; look: Signal<Look>; pins: Pins }) {
  const { photo, tool, look, pins } = props;
  const media = useMediaUrl(photo.document, 'full');
  if (media.type === 'absent') return <Empty what={`${ABSENT}.`} why={ABSENT_WHY} />;
  if (media.type !== 'here') return null;
  return (
    <PhotoStage
      url={media.url}
      photo={photo}
      name={stageToWords(photo, tool, pins.next)}
      marks={photo.marks}
      pins={photo.pins}
      look={look.value}
      onLook={(want) => {
        look.value = want;
      }}
      tool={tool === 'pin' ? 'point' : tool}
      onPoint={(at) => void pins.pin(at)}
      onMark={(mark) => void pins.draw(mark)}
    />
  );
}

function Withdraw(props: ViewerProps & { photo: PhotoView; onCancel: () => void }) {
  const { audit, photo, onClose, onGone = onClose } = props;
  const services = useServices();
  const takeBack = async () => {
    const result = await services.record('withdrawn', { target: { event: photo.event }, why: 'undo' }, { audit });
    if (result.event !== '') onGone();
  };
  return (
    <Screen
      plate={plateOf(photo, onClose)}
      foot={
        <TitleBlock
          rows={[
            [
              { big: 'Cancel', onPress: props.onCancel },
              { big: 'Withdraw the photo', primary: true, share: 2, onPress: () => void takeBack() },
            ],
          ]}
        />
      }
    >
      <div class="photo-line">
        <h2 class="dialog-title">Withdraw this photo?</h2>
        <p>
          The photo and its pins go from lists and reports. Labels read off it stay. Like every entry it stays in the
          record itself, and on phones and servers that have it: if it shows a password, change the password.
        </p>
      </div>
    </Screen>
  );
}

function plateOf(photo: PhotoView | null, onClose: () => void) {
  return (
    <Plate
      back={{ label: 'Close the photo', onPress: onClose }}
      cells={[
        {
          small: photo ? `${photo.author}, ${dayAndClock(photo.at)}` : 'Photo',
          big: photo?.words ?? '',
          heading: true,
          wide: true,
        },
      ]}
    />
  );
}

function hint(tool: Tool, photo: PhotoView, next: string | null) {
  switch (tool) {
    case 'look':
      return marksToWords(photo.marks) || 'Two fingers or + to zoom in; touch a part to bring it to the middle.';
    case 'arrow':
      return 'Draw from tail to tip with one finger, or touch the tail and then the tip.';
    case 'circle':
      return 'Draw across it with one finger, or touch one corner and then the other.';
    case 'pin':
      return next === null ? (
        'Every jack of this unit is pinned. Press Another jack to choose from a list.'
      ) : (
        <>
          Touch <strong class="ident">{next}</strong> on the photo.
        </>
      );
  }
}

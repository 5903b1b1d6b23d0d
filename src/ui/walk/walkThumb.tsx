// The cells at the thumb: what stands here by plan on the hand's side, the four plain states, the tools beneath.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { nextNumber, primaryAt } from '../../core/report/walk/offered.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { lastAct } from '../../core/walk/memory.ts';
import { useServices } from '../context.ts';
import type { RemoteAction } from '../feel/settings.ts';
import { useFeelSettings } from '../feel/useFeel.ts';
import { settleMs, useRemote } from '../feel/useRemote.ts';
import { type CellProps, ThumbZone } from '../parts/frame.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { CouldNotSeeSymbol, EmptySymbol, NoLabelSymbol, UnreadableSymbol } from '../parts/symbols.tsx';
import { renamingCells } from '../renaming/renamingWalk.tsx';
import type { Sheet } from './sheets/walkSheet.ts';
import { landingCell } from './walkBuild.tsx';
import type { WalkCamera } from './walkCamera.ts';
import { predictionOf } from './walkFace.tsx';
import type { WalkFlow } from './walkFlowType.ts';
import { takePhoto } from './walkPhoto.ts';
import { labelToShow } from './walkState.ts';

export function WalkThumb({ flow, camera, view }: { flow: WalkFlow; camera: WalkCamera; view: WalkView }) {
  const services = useServices();
  const feel = useFeelSettings().settings.value;
  const at = { place: view.current.place, words: `${view.unit.label} ${view.current.jack}` };
  const open = (sheet: Sheet) => () => {
    flow.sheet.value = sheet;
  };
  // A second tap on the heels of the first would speak about a jack that nobody has looked at yet.
  const settled = useSignal(at.place);
  useEffect(() => {
    const timer = setTimeout(() => {
      settled.value = at.place;
    }, settleMs(feel));
    return () => clearTimeout(timer);
  }, [at.place]);
  useRemote(
    feel,
    () => flow.sheet.peek() === null && flow.mode.peek() === 'walk' && !flow.memory.peek().paused,
    (action) => {
      const now = flow.view.peek();
      if (now !== null && now !== 'loading') void speak(action, now);
    },
  );
  const speak = async (action: RemoteAction, now: WalkView): Promise<void> => {
    const primary = primaryAt(now);
    if (action === 'photo') {
      const words = `${now.unit.label} ${now.current.jack}`;
      await takePhoto(services, flow, camera, { place: now.current.place, words });
    } else if (action === 'undo') await flow.undo();
    else if (action !== 'planned') await flow.sayState(action);
    else if (primary.type === 'reads') await flow.sayLabel(primary.label, 'tapped');
    else if (primary.type === 'empty') await flow.sayState('empty');
  };
  return (
    <div class={settled.value === at.place ? 'walk-thumb' : 'walk-thumb walk-settling'}>
      <ThumbZone
        hand={services.settings.value.hand}
        states={[
          { big: 'Empty', symbol: <EmptySymbol size={1.5} />, onPress: () => void flow.sayState('empty') },
          { big: 'No label', symbol: <NoLabelSymbol size={1.5} />, onPress: () => void flow.sayState('unlabelled') },
          { big: 'Can’t read it', symbol: <UnreadableSymbol size={1.5} />, onPress: open({ type: 'pattern' }) },
          {
            big: 'Can’t see it',
            symbol: <CouldNotSeeSymbol size={1.5} />,
            onPress: () => void flow.sayState('not-visible'),
          },
        ]}
        reads={renamingCells(flow, view) ?? readsCells(flow, view)}
        tools={[
          { big: 'Photo', name: `Photo of ${at.words}`, onPress: () => void takePhoto(services, flow, camera, at) },
          { big: 'Note', name: `Note at ${at.words}`, onPress: open({ type: 'note', ...at }) },
          { big: 'Type', name: `Type the label of ${at.words}`, onPress: open({ type: 'type' }) },
          { big: 'Undo', onPress: () => void flow.undo(), disabled: lastAct(flow.memory.value) === null },
          { big: 'More', onPress: open({ type: 'more' }) },
        ]}
      />
    </div>
  );
}

function readsCells(flow: WalkFlow, view: WalkView): CellProps[] {
  const primary = primaryAt(view);
  if (primary.type === 'none') return view.blind ? [] : freeCells(flow, view);
  const small = <Ident text={view.current.jack} />;
  if (primary.type === 'empty') {
    return [
      {
        small,
        big: 'Empty',
        after: 'as planned',
        primary: true,
        name: `${view.current.jack} empty, as planned`,
        onPress: () => void flow.sayState('empty'),
      },
    ];
  }
  const reads = (label: string): CellProps => ({
    big: (
      <>
        Reads{' '}
        <span class={label.length > 12 ? 'reads-long' : undefined}>
          <CableLabel text={labelToShow(label)} />
        </span>
      </>
    ),
    onPress: () => void flow.sayLabel(label, 'tapped'),
  });
  const predicted = predictionOf(view);
  const landing = landingCell(flow, view);
  return [
    landing ?? {
      ...reads(primary.label),
      small,
      after: 'as planned',
      primary: true,
      name: `${view.current.jack} reads ${labelToShow(primary.label)}, as planned`,
    },
    ...(predicted
      ? [
          {
            ...reads(predicted.label),
            small,
            after: predicted.why,
            dashed: true,
            name: `${view.current.jack} reads ${labelToShow(predicted.label)}, ${predicted.why}`,
          },
        ]
      : []),
  ];
}

/** Where no plan tells what stands here: the label is typed or read, and a series goes on by one. */
function freeCells(flow: WalkFlow, view: WalkView): CellProps[] {
  const small = <Ident text={view.current.jack} />;
  const next = nextNumber(view);
  return [
    {
      small,
      big: 'Type the label',
      primary: true,
      name: `${view.current.jack}: type what the label reads`,
      onPress: () => {
        flow.sheet.value = { type: 'type' };
      },
    },
    ...(next === null
      ? []
      : [
          {
            small,
            big: (
              <>
                Reads <CableLabel text={labelToShow(next)} />
              </>
            ),
            after: 'the next number',
            dashed: true,
            name: `${view.current.jack} reads ${labelToShow(next)}, the next number`,
            onPress: () => void flow.sayLabel(next, 'tapped'),
          },
        ]),
  ];
}

// What else can be said or done at the jack in hand: first what fits the place and the occasion, the rest folded in
// groups. Opens sheets and moves; records nothing by itself and never says that anything can be done without risk.
import type { ComponentChildren } from 'preact';
import type { PlaceId } from '../../../core/plan/identity.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { PERMISSION_WORDS } from '../../../core/report/words/recordWords.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Row } from '../../parts/rows.tsx';
import { go } from '../../router.ts';
import { count } from '../../words.ts';
import type { PartMode, WalkFlow } from '../walkFlowType.ts';
import { RANGE_WORDS } from '../walkRangeWords.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { firstRows, type RowId } from './moreFirst.ts';
import { MorePhotos } from './walkMorePhotos.tsx';
import type { PlainSheet } from './walkSheet.ts';
import { placeOf } from './walkSheetsText.tsx';
import { TwinsRow } from './walkTwins.tsx';

/** Behind one line until it is opened; its rows are drawn all the same, so that it opens at once. */
function Folded(props: { title: string; children: ComponentChildren }) {
  return (
    <details class="walk-group walk-fold">
      <summary>
        <h3>{props.title}</h3>
      </summary>
      {props.children}
    </details>
  );
}

type GroupName = 'say' | 'photos' | 'go' | 'build' | 'labels' | 'describe' | 'audit';
const GROUPS: readonly [GroupName, string][] = [
  ['say', 'More about this jack'],
  ['build', 'Build'],
  ['go', 'Go elsewhere'],
  ['labels', 'Labels'],
  ['describe', 'Describe'],
  ['photos', 'Photos and voice'],
  ['audit', 'This audit'],
];

/** Rows by name, each in the group where it is looked for when it does not stand first. */
interface MoreRow {
  id: RowId | null;
  group: GroupName;
  row: ComponentChildren;
}

export function MoreSheet({ flow, camera, close }: SheetProps) {
  const view = flow.view.value;
  const at = placeOf(flow);
  if (!view || view === 'loading' || !at) return null;
  const first = firstRows(view);
  const rows = rowsOf(view, flow, actsOf({ flow, close }));
  const rest = GROUPS.map(([name, title]) => ({
    ...{ name, title },
    rows: rows.filter(({ id, group }) => group === name && (id === null || !first.includes(id))),
  }));
  return (
    <Dialog title={`More at ${at.words}`} onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      <section class="walk-group" aria-label="First here">
        {first.map((one) => rows.find(({ id }) => id === one)?.row)}
      </section>
      {rest.map(({ name, title, rows: folded }) =>
        name === 'photos' ? (
          <Folded key={name} title={title}>
            <MorePhotos flow={flow} camera={camera} close={close} />
          </Folded>
        ) : (
          folded.length > 0 && (
            <Folded key={name} title={title}>
              {folded.map(({ row }) => row)}
            </Folded>
          )
        ),
      )}
    </Dialog>
  );
}

interface Acts {
  open: (type: PlainSheet) => () => void;
  /** Lies over the walk once More is closed. */
  over: (mode: PartMode | 'range') => () => void;
  /** Anything else that closes More first. */
  then: (act: () => void) => () => void;
}

function actsOf({ flow, close }: Pick<SheetProps, 'flow' | 'close'>): Acts {
  const then = (act: () => void) => () => {
    close();
    act();
  };
  return {
    then,
    open: (type) => () => {
      flow.sheet.value = { type };
    },
    over: (mode) =>
      then(() => {
        flow.mode.value = mode;
      }),
  };
}

function row(group: GroupName, id: RowId | null, title: string, onPress: () => void, second?: string): MoreRow {
  return { id, group, row: <Row key={title} title={title} second={second} onPress={onPress} /> };
}

function rowsOf(view: WalkView, flow: WalkFlow, acts: Acts): MoreRow[] {
  return [
    ...jackRows(view, flow, acts),
    ...goRows(view, flow, acts),
    ...labelRows(flow, acts),
    ...describeRows(view, flow, acts),
    ...auditRows(view, flow, acts),
  ];
}

function jackRows(view: WalkView, flow: WalkFlow, { open, over, then }: Acts): MoreRow[] {
  const state = (said: 'plugged' | 'blanked') => then(() => void flow.sayState(said));
  const rows = [
    row('say', 'range', RANGE_WORDS.title, over('range'), RANGE_WORDS.what),
    row('say', 'plugged', 'Plugged, label not in view', state('plugged')),
    row('say', 'blanked', 'Blanked', state('blanked'), 'A blanking plug or plate: nothing can be plugged in.'),
    row('say', 'refused', 'Not checked', open('refused'), 'No permission or no access; say why.'),
    row('say', 'hazard', 'Hazard seen', open('hazard'), 'Mains, earth, strain, fibre, height and more.'),
  ];
  if (view.occasion !== 'build') return rows;
  const left = 'Ends still to do, nearest first; changes and lash-ups.';
  return [
    ...rows,
    row('build', 'work', 'Work on this end', open('work'), 'Pulled, plugged or landed, tested, labelled.'),
    row('build', 'left-to-build', 'What is left to build', open('left-to-build'), left),
  ];
}

function goRows(view: WalkView, flow: WalkFlow, { open, then }: Acts): MoreRow[] {
  const jump = (place: PlaceId) => then(() => void flow.moveTo(place));
  const first = then(() => flow.labelFirst(true));
  const radio = 'One question at a time for a helper; the answer is recorded as told, by name.';
  return [
    row('go', 'ends', 'Which ends are left?', open('ends'), 'The nearest open end, and how long the rest may take.'),
    row('go', 'jump', 'Go to another unit', open('jump'), `${count(view.leftAll, 'jack')} to go in all`),
    row('go', null, 'Walking order', open('way'), 'Along the jacks or along the cables; racks, front or rear.'),
    row('go', null, 'Far end by radio', open('radio'), radio),
    row('go', null, 'Label first', first, 'Read any cable in the bundle, then touch the jack where it goes.'),
    ...(view.next ? [row('go', null, 'Next jack, record nothing', jump(view.next))] : []),
    ...(view.previous ? [row('go', null, 'Previous jack', jump(view.previous))] : []),
  ];
}

function labelRows(flow: WalkFlow, { open }: Acts): MoreRow[] {
  const jacket = 'Text and running number along the cable: which other end fits, without touching.';
  return [
    { id: 'twins', group: 'labels', row: <TwinsRow key="twins" flow={flow} onPress={open('twins')} /> },
    row('labels', null, 'Jacket and metre mark', open('jacket'), jacket),
  ];
}

function describeRows(view: WalkView, flow: WalkFlow, { open, over, then }: Acts): MoreRow[] {
  const describe = then(() => go({ screen: 'describe', audit: flow.audit, what: null, label: null }));
  const part = `What is plugged into ${view.current.jack}; its sockets are walked after ${view.unit.label}.`;
  const colour = 'Pairs, fibres, cores: in order, dead, spare, crossed, followed.';
  const newUnit = 'Its place and its jacks; you then walk them like the others.';
  const read = `Read off ${view.unit.label}`;
  return [
    row('describe', 'part', 'Adapter or tail here', over('part'), part),
    row('describe', 'lead', 'Patch lead', over('lead'), 'From jack to jack on the drawing; or no leads in this bay.'),
    row('describe', 'colour', 'Landed in colour order', over('colour'), colour),
    row('describe', null, 'Panel, block or trunk', over('panel')),
    row('describe', 'power', 'Power', over('power'), 'Feed, strip, supply; where a cord goes. Look only.'),
    row('describe', 'new-unit', 'A unit or rack that the plan does not have', describe, newUnit),
    row('describe', null, 'What unit is here', open('unit-here'), 'What is in a rack position.'),
    row('describe', null, 'Loose end', open('loose'), 'A cable that is in no jack.'),
    row('describe', null, read, open('setting'), 'A setting from its page, screen or knobs.'),
  ];
}

function auditRows(view: WalkView, flow: WalkFlow, { open }: Acts): MoreRow[] {
  const renaming = () => go({ screen: 'renaming', audit: flow.audit, place: view.current.place });
  const grow = 'This audit covers more from now on; the report says who added it.';
  const may = PERMISSION_WORDS[view.permission].text;
  return [
    row(
      'audit',
      null,
      'For the maintenance window',
      open('window'),
      'What needs hands on, a key or another time, and why.',
    ),
    {
      ...{ id: null, group: 'audit' },
      row: <Row key="may" title="What you may do" right={may} onPress={open('permission')} />,
    },
    row('audit', 'renaming', 'Renaming', renaming, 'Old and new names, what is half done, import a list.'),
    row('audit', null, 'Add a rack, room or unit', open('scope'), grow),
    row('audit', null, 'Close the audit', open('finish')),
  ];
}

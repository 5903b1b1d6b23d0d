// What else can be said or done at the jack in hand: first what fits the place and the occasion, the rest folded in
// groups. Opens sheets and moves; records nothing by itself and never says that anything can be done without risk.
import type { ComponentChildren } from 'preact';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Row } from '../../parts/rows.tsx';
import { go } from '../../router.ts';
import type { PlainSheet } from '../sheets/walkSheet.ts';
import { placeOf } from '../sheets/walkSheetsText.tsx';
import { TwinsRow } from '../sheets/walkTwins.tsx';
import type { PartMode, WalkFlow } from '../walkFlowType.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { firstRows, type RowId } from './moreFirst.ts';
import { type GroupName, MORE_GROUPS, moreAt, moreWords } from './moreWords.ts';
import { MorePhotos } from './walkMorePhotos.tsx';

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

/** Each row in the group where it is looked for when it does not stand first. */
const GROUPS: readonly [GroupName, readonly RowId[]][] = [
  ['say', ['range', 'plugged', 'blanked', 'refused', 'hazard']],
  ['build', ['work', 'left-to-build']],
  ['go', ['ends', 'jump', 'way', 'radio', 'first', 'next', 'previous']],
  ['labels', ['twins', 'jacket']],
  ['describe', ['part', 'lead', 'colour', 'panel', 'power', 'new-unit', 'unit-here', 'loose', 'setting']],
  ['photos', []],
  ['audit', ['window', 'permission', 'renaming', 'scope', 'finish']],
];

export function MoreSheet({ flow, camera, close }: SheetProps) {
  const view = flow.view.value;
  const at = placeOf(flow);
  if (!view || view === 'loading' || !at) return null;
  const words = moreWords(view);
  const acts = actsOf(view, flow, close);
  const first = firstRows(view).filter((id) => acts[id] !== null);
  const row = (id: RowId) => {
    const onPress = acts[id] ?? undefined;
    return id === 'twins' && onPress ? (
      <TwinsRow key={id} flow={flow} onPress={onPress} />
    ) : (
      <Row key={id} {...words[id]} onPress={onPress} />
    );
  };
  return (
    <Dialog title={moreAt(at.words)} onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      <section class="walk-group" aria-label="First here">
        {first.map(row)}
      </section>
      {GROUPS.map(([name, all]) => {
        const rest = all.filter((id) => acts[id] !== null && !first.includes(id));
        if (name !== 'photos' && rest.length === 0) return null;
        return (
          <Folded key={name} title={MORE_GROUPS[name]}>
            {name === 'photos' ? <MorePhotos flow={flow} camera={camera} close={close} /> : rest.map(row)}
          </Folded>
        );
      })}
    </Dialog>
  );
}

/** What a row does; null where it is not offered. */
function actsOf(view: WalkView, flow: WalkFlow, close: () => void): Record<RowId, (() => void) | null> {
  const { audit } = flow;
  const open = (type: PlainSheet) => () => {
    flow.sheet.value = { type };
  };
  /** Anything else closes More first. */
  const then = (act: () => void) => () => {
    close();
    act();
  };
  /** Lies over the walk. */
  const over = (mode: PartMode | 'range') =>
    then(() => {
      flow.mode.value = mode;
    });
  const state = (said: 'plugged' | 'blanked') => then(() => void flow.sayState(said));
  const jump = (place: string | null) => (place === null ? null : then(() => void flow.moveTo(place)));
  const builds = view.occasion === 'build';
  return {
    range: over('range'),
    plugged: state('plugged'),
    blanked: state('blanked'),
    refused: open('refused'),
    hazard: open('hazard'),
    work: builds ? open('work') : null,
    'left-to-build': builds ? open('left-to-build') : null,
    ends: open('ends'),
    jump: open('jump'),
    way: open('way'),
    radio: open('radio'),
    first: then(() => flow.labelFirst(true)),
    next: jump(view.next),
    previous: jump(view.previous),
    twins: open('twins'),
    jacket: open('jacket'),
    part: over('part'),
    lead: over('lead'),
    colour: over('colour'),
    panel: over('panel'),
    power: over('power'),
    'new-unit': then(() => go({ screen: 'describe', audit, what: null, label: null })),
    'unit-here': open('unit-here'),
    loose: open('loose'),
    setting: open('setting'),
    window: open('window'),
    permission: open('permission'),
    renaming: () => go({ screen: 'renaming', audit, place: view.current.place }),
    scope: open('scope'),
    finish: open('finish'),
  };
}

// A row at once: two touches set the range, − and + correct it, one inside can be taken out. The sentence states
// what is claimed, and the whole is one event with one undo. Only plain statements can be made of a row.

import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { AuditId, PlaceId, UnitId } from '../../../core/plan/identity.ts';
import type { State } from '../../../core/record/events.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import type { Questions } from '../../../wire/page.ts';
import { useServices } from '../../context.ts';
import { useDraft } from '../../drafts/useDraft.ts';
import { RANGE } from '../../drafts/walkDrafts.ts';
import { type CellProps, Permission, Plate, Screen, TitleBlock } from '../../parts/frame.tsx';
import { inNumberOrder } from '../../parts/marks.ts';
import { SweepFace } from '../../parts/sweep-face.tsx';
import { CouldNotSeeSymbol, EmptySymbol, NoLabelSymbol } from '../../parts/symbols.tsx';
import { count } from '../../words.ts';
import { permitted } from '../walkFace.tsx';
import type { WalkFlow } from '../walkFlowType.ts';
import { type RangeState, rangeToSentence, touchRange } from '../walkRangeState.ts';

type Listed = NonNullable<Questions['range']['answer']>;
type RowState = Extract<State, 'empty' | 'unlabelled' | 'not-visible'>;
const STATES: { state: RowState; word: string; says: string; symbol: preact.ComponentChildren }[] = [
  { state: 'empty', word: 'Empty', says: 'empty', symbol: <EmptySymbol size={1.5} /> },
  { state: 'unlabelled', word: 'No label', says: 'without label', symbol: <NoLabelSymbol size={1.5} /> },
  { state: 'not-visible', word: 'Can’t see', says: 'out of sight', symbol: <CouldNotSeeSymbol size={1.5} /> },
];

interface RangeDraft {
  /** Empty until the first touch. */
  unit: UnitId;
  range: RangeState;
  state: RowState;
}
const NOTHING_CHOSEN: RangeDraft = { unit: '', range: { first: null, last: null, without: [] }, state: 'empty' };
const rangeDraft = (audit: AuditId) => `range:${audit}` as const;

/** Opens a row again that was half chosen when the page ended. */
export function useRangeResumed(flow: WalkFlow, view: WalkView): void {
  const services = useServices();
  useEffect(() => {
    void services.draft(rangeDraft(flow.audit), RANGE).then((kept) => {
      if (kept?.unit === view.unit.id && flow.sheet.peek() === null) flow.mode.value = 'range';
    });
  }, []);
}

export function WalkRange({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const services = useServices();
  const { now: draft, set, drop } = useDraft<RangeDraft>(rangeDraft(flow.audit), RANGE, NOTHING_CHOSEN);
  const mine = draft.unit === view.unit.id ? draft : NOTHING_CHOSEN;
  const range = { value: mine.range };
  const state = { value: mine.state };
  const keep = (change: Partial<RangeDraft>) => set({ ...mine, ...change, unit: view.unit.id });
  // Whoever leaves it has done with it; a page that is ended in the middle has no time for this, and comes back to it.
  useEffect(() => drop, []);
  const listed = useSignal<Listed>([]);
  const order = inNumberOrder(view.face.rows);
  const said = new Set(order.filter((jack) => jack.state !== 'unseen').map(({ place }) => place));
  const { first, last } = range.value;
  const key = `${first} ${last}`;
  const asked = useRef(key);
  asked.current = key;
  useEffect(() => {
    listed.value = [];
    if (!first || !last) return;
    const wanted = key;
    void services.ask('range', { audit: flow.audit, first, last }).then((answer) => {
      if (asked.current === wanted) listed.value = answer ?? [];
    });
  }, [key]);

  const inside = listed.value.filter(({ place }) => !range.value.without.includes(place));
  const label = (place: PlaceId | null) => order.find((jack) => jack.place === place)?.label ?? '–';
  const chosen = STATES.find((one) => one.state === state.value)!;
  const takenOut = listed.value.filter(({ place }) => range.value.without.includes(place)).map((one) => one.label);
  const words = rangeToSentence(inside, state.value, view.blind || !view.hasPlan);
  const shift = (end: 'first' | 'last', by: number) => () => {
    const at = order.findIndex((jack) => jack.place === range.value[end]);
    const next = at < 0 ? order[0] : order[at + by];
    if (!next) return;
    keep({ range: withSaidTakenOut({ ...range.value, [end]: next.place }) });
  };
  /** Jacks that were said already stay as said unless they are touched on purpose. */
  function withSaidTakenOut(next: RangeState): RangeState {
    return { ...next, without: [...said] };
  }
  const press = (place: PlaceId) => {
    const next = touchRange(
      range.value,
      place,
      order.map((jack) => jack.place),
    );
    const settled = next.last !== null && range.value.last === null;
    keep({ range: settled ? withSaidTakenOut(next) : next });
  };
  const outOfScope = inRange(
    order.map((jack) => jack.place),
    first,
    last,
  ).filter((place) => listed.value.length > 0 && !listed.value.some((one) => one.place === place));
  const say = () => {
    const places = inside.map((one) => ({ place: one.place, words: `${view.unit.label} ${one.label}` }));
    const plugs = state.value === 'unlabelled' ? [{ labels: [] }] : [];
    flow.mode.value = 'walk';
    void flow.say({ places, state: state.value, plugs, by: 'tapped' });
  };
  const end = (name: string, which: 'first' | 'last'): CellProps[] => [
    { big: '−', name: `${name} jack one back`, onPress: shift(which, -1) },
    { small: name, big: <span class="ident">{label(range.value[which])}</span>, share: 2 },
    { big: '+', name: `${name} jack one on`, onPress: shift(which, 1) },
  ];
  const n = inside.length;
  return (
    <div class="walk-over">
      <Screen
        plate={
          <Plate
            cells={[
              { small: view.rack ? `Rack ${view.rack}` : (view.room ?? 'Room'), big: view.side },
              {
                small: view.unit.u === null ? view.unit.label : `${view.unit.label}, U${view.unit.u}`,
                big: first && last ? `${label(first)}–${label(last)}` : 'A row at once',
                heading: true,
                wide: true,
              },
              { small: 'To go', big: String(view.leftHere) },
            ]}
          />
        }
        foot={
          <TitleBlock
            rows={[
              [...end('First', 'first'), ...end('Last', 'last')],
              STATES.map((one) => ({
                big: one.word,
                symbol: one.symbol,
                pressed: one.state === state.value,
                onPress: () => {
                  keep({ state: one.state });
                },
              })),
              [
                {
                  small: 'Don’t record',
                  big: 'Cancel',
                  onPress: () => {
                    flow.mode.value = 'walk';
                  },
                },
                {
                  small: n === 0 ? 'Touch the first and the last jack' : 'One Undo takes them all back',
                  big: n === 0 ? 'Nothing chosen' : `Record ${n} as ${chosen.says}`,
                  primary: true,
                  share: 2,
                  disabled: n === 0,
                  onPress: say,
                },
              ],
            ]}
          />
        }
      >
        <Permission
          {...permitted(view)}
          onPress={() => {
            flow.sheet.value = { type: 'permission' };
          }}
        />
        <div class="walk-face">
          <SweepFace
            unitLabel={view.unit.label}
            rows={view.face.rows}
            heightU={view.unit.heightU}
            mirrored={view.face.mirrored}
            blind={view.blind}
            range={first ? { first, last: last ?? first, without: [...range.value.without, ...outOfScope] } : undefined}
            onPress={press}
          />
          <p class="walk-words">
            {view.sideWords} Touch the first jack and the last; touch one inside the line to take it out.
          </p>
        </div>
        <div class="walk-range-words" role="status">
          {n > 0 && (
            <>
              <h2>
                {n === 1 ? label(inside[0]?.place ?? null) : `${label(first)} to ${label(last)}`}
                {n > 1 && takenOut.length > 0 && ` without ${takenOut.join(', ')}`}: {chosen.says}.
              </h2>
              <p>{words}</p>
              <p>
                By eye, {services.settings.value.author}. {count(n, 'entry', 'entries')}; one Undo takes them all back.
              </p>
            </>
          )}
        </div>
      </Screen>
    </div>
  );
}

function inRange(order: readonly string[], first: string | null, last: string | null): string[] {
  if (!first || !last) return [];
  const [a, b] = [order.indexOf(first), order.indexOf(last)];
  return order.slice(Math.min(a, b), Math.max(a, b) + 1);
}

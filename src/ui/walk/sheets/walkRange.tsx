// A row of jacks: two touches set the range, − and + correct it, one inside can be taken out. The sentence states
// what is claimed, and the whole is one event with one undo. Only plain statements can be made of a row.

import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { AuditId, PlaceId, UnitId } from '../../../core/plan/identity.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import type { Questions } from '../../../wire/page.ts';
import { useServices } from '../../context.ts';
import { useDraft } from '../../drafts/useDraft.ts';
import { RANGE } from '../../drafts/walkDrafts.ts';
import { type CellProps, Permission, Plate, Screen, TitleBlock } from '../../parts/frame.tsx';
import { inNumberOrder } from '../../parts/marks.ts';
import { SweepFace } from '../../parts/sweep-face.tsx';
import { CouldNotSeeSymbol, EmptySymbol, NoLabelSymbol } from '../../parts/symbols.tsx';
import { permitted } from '../walkFace.tsx';
import type { WalkFlow } from '../walkFlowType.ts';
import { type RangeState, touchRange } from '../walkRangeState.ts';
import {
  RANGE_STATES,
  RANGE_WORDS,
  type RowState,
  rangeByToWords,
  rangeToSentence,
  rangeToWords,
} from '../walkRangeWords.ts';

type Listed = NonNullable<Questions['range']['answer']>;
const STATES: { state: RowState; symbol: preact.ComponentChildren }[] = [
  { state: 'empty', symbol: <EmptySymbol size={1.5} /> },
  { state: 'unlabelled', symbol: <NoLabelSymbol size={1.5} /> },
  { state: 'not-visible', symbol: <CouldNotSeeSymbol size={1.5} /> },
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

type Row = ReturnType<typeof useRow>;

/** The row being chosen, kept as a draft, and the jacks of it that this audit covers. */
function useRow(flow: WalkFlow, view: WalkView) {
  const { now: draft, set, drop } = useDraft<RangeDraft>(rangeDraft(flow.audit), RANGE, NOTHING_CHOSEN);
  // Whoever leaves it has done with it; a page that is ended in the middle has no time for this, and comes back to it.
  useEffect(() => drop, []);
  const { range, state } = draft.unit === view.unit.id ? draft : NOTHING_CHOSEN;
  const keep = (change: Partial<RangeDraft>) => set({ range, state, ...change, unit: view.unit.id });
  const jacks = inNumberOrder(view.face.rows);
  const order: string[] = jacks.map(({ place }) => place);
  const listed = useListed(flow.audit, range);
  const out = new Set(range.without);
  /** Jacks that were said already stay as said unless they are touched on purpose. */
  const keepSaid = (next: RangeState) => {
    const said = jacks.filter((jack) => jack.state !== 'unseen').map(({ place }) => place);
    keep({ range: { ...next, without: said } });
  };
  return {
    range,
    state,
    inside: listed.filter(({ place }) => !out.has(place)),
    takenOut: listed.filter(({ place }) => out.has(place)).map(({ label }) => label),
    outOfScope: inRange(order, range).filter(
      (place) => listed.length > 0 && !listed.some((one) => one.place === place),
    ),
    label: (place: PlaceId | null) => jacks.find((jack) => jack.place === place)?.label ?? '–',
    choose: (next: RowState) => keep({ state: next }),
    shift: (end: 'first' | 'last', by: number) => () => {
      const at = order.indexOf(range[end] ?? '');
      const next = at < 0 ? order[0] : order[at + by];
      if (next !== undefined) keepSaid({ ...range, [end]: next });
    },
    touch: (place: PlaceId) => {
      const next = touchRange(range, place, order);
      if (next.last !== null && range.last === null) keepSaid(next);
      else keep({ range: next });
    },
  };
}

/** What the record says of the jacks from the first to the last; those outside the audit are not among them. */
function useListed(audit: AuditId, { first, last }: RangeState): Listed {
  const services = useServices();
  const listed = useSignal<Listed>([]);
  const key = `${first} ${last}`;
  const asked = useRef(key);
  asked.current = key;
  useEffect(() => {
    listed.value = [];
    if (!first || !last) return;
    void services.ask('range', { audit, first, last }).then((answer) => {
      if (asked.current === key) listed.value = answer ?? [];
    });
  }, [key]);
  return listed.value;
}

export function WalkRange({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const row = useRow(flow, view);
  const { range, label } = row;
  const { first, last } = range;
  return (
    <div class="walk-over">
      <Screen
        plate={
          <Plate
            cells={[
              { small: view.rack ? `Rack ${view.rack}` : (view.room ?? 'Room'), big: view.side },
              {
                small: view.unit.u === null ? view.unit.label : `${view.unit.label}, U${view.unit.u}`,
                big: first && last ? `${label(first)}–${label(last)}` : RANGE_WORDS.title,
                heading: true,
                wide: true,
              },
              { small: 'To go', big: String(view.leftHere) },
            ]}
          />
        }
        foot={<RangeFoot flow={flow} view={view} row={row} />}
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
            range={first ? { first, last: last ?? first, without: [...range.without, ...row.outOfScope] } : undefined}
            onPress={row.touch}
          />
          <p class="walk-words">
            {view.sideWords} {RANGE_WORDS.how}
          </p>
        </div>
        <RangeClaim row={row} hidePlan={view.blind || !view.hasPlan} />
      </Screen>
    </div>
  );
}

function RangeFoot({ flow, view, row }: { flow: WalkFlow; view: WalkView; row: Row }) {
  const { inside, state, range } = row;
  const n = inside.length;
  const leave = () => {
    flow.mode.value = 'walk';
  };
  const say = () => {
    const places = inside.map((one) => ({ place: one.place, words: `${view.unit.label} ${one.label}` }));
    leave();
    void flow.say({ places, state, plugs: state === 'unlabelled' ? [{ labels: [] }] : [], by: 'tapped' });
  };
  const end = (which: 'first' | 'last'): CellProps[] => {
    const { name, back, on } = RANGE_WORDS[which];
    return [
      { big: '−', name: back, onPress: row.shift(which, -1) },
      { small: name, big: <span class="ident">{row.label(range[which])}</span>, share: 2 },
      { big: '+', name: on, onPress: row.shift(which, 1) },
    ];
  };
  return (
    <TitleBlock
      rows={[
        [...end('first'), ...end('last')],
        STATES.map((one) => ({
          big: RANGE_STATES[one.state].button,
          symbol: one.symbol,
          pressed: one.state === state,
          onPress: () => row.choose(one.state),
        })),
        [
          { small: 'Don’t record', big: 'Cancel', onPress: leave },
          {
            small: n === 0 ? RANGE_WORDS.touchBoth : RANGE_WORDS.oneUndo,
            big: n === 0 ? RANGE_WORDS.nothing : RANGE_STATES[state].record(n),
            primary: true,
            share: 2,
            disabled: n === 0,
            onPress: say,
          },
        ],
      ]}
    />
  );
}

/** What is claimed of the row, before it is recorded. */
function RangeClaim({ row, hidePlan }: { row: Row; hidePlan: boolean }) {
  const { settings } = useServices();
  const { inside, state, range, label, takenOut } = row;
  const [only, ...others] = inside;
  const title = others.length > 0 ? rangeToWords(label(range.first), label(range.last), takenOut) : (only?.label ?? '');
  return (
    <div class="walk-range-words" role="status">
      {only && (
        <>
          <h2>{RANGE_STATES[state].title(title)}</h2>
          <p>{rangeToSentence(inside, state, hidePlan)}</p>
          <p>{rangeByToWords(settings.value.author, inside.length)}</p>
        </>
      )}
    </div>
  );
}

function inRange(order: readonly string[], { first, last }: RangeState): string[] {
  if (!first || !last) return [];
  const [a, b] = [order.indexOf(first), order.indexOf(last)];
  return order.slice(Math.min(a, b), Math.max(a, b) + 1);
}

// Every kind of what the phone keeps beside the record: what is kept is read again as it was, what earlier builds kept is
// read, and of anything else it is said that it does not fit. Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { USUAL_WAY } from '../../../src/core/report/walk/walkOrder.ts';
import { USUAL_RULES } from '../../../src/core/schedule/desk/siteRules.ts';
import type { SheetAnswers } from '../../../src/core/schedule/sheetAnswers.ts';
import { NEW_RACK, NEW_UNIT } from '../../../src/ui/describe/describeDraft.ts';
import { COLOURS, LEAD, PANEL, PART, POWER, RACK, UNIT } from '../../../src/ui/drafts/describeDrafts.ts';
import { BRING_IN, RENAMING, SETTLED, SHAPES, STRIPS } from '../../../src/ui/drafts/deskDrafts.ts';
import { type DraftKind, FLAG, TEXT } from '../../../src/ui/drafts/draftKind.ts';
import { DRAFT_NAMES, keyToWords } from '../../../src/ui/drafts/draftNames.ts';
import { PHOTO_AT, RANGE, VOICE_AT, WALK, WAY } from '../../../src/ui/drafts/walkDrafts.ts';
import {
  NAME_LATER,
  NAME_TYPED,
  SIGN,
  SITE_RULES,
  START,
  UNDER_WAY,
  WINDOW,
} from '../../../src/ui/drafts/workDrafts.ts';
import { NEW_DRAFT } from '../../../src/ui/home/startDraft.ts';
import { NEW_RULE } from '../../../src/ui/renaming/renamingRule.tsx';
import { NOTHING_TYPED } from '../../../src/ui/settings/siteRulesDraft.ts';

const sighting = {
  places: ['SW1/P03'],
  said: ['SW1 P03'],
  state: 'label' as const,
  plugs: [{ labels: [{ text: '1003' }] }],
  basis: 'seen' as const,
};
const answers = {
  mappings: [{ sheet: 'Cables', kind: 'cables' as const, headerRow: 3, columns: [{ column: 1, meaning: 'number' }] }],
  cells: [{ sheet: 'Cables', column: 2, row: null, said: 'dito', as: 'typed' as const, text: '1004' }],
};
const step = {
  n: 1,
  action: 'plug' as const,
  placeId: 'SW1/P03',
  from: null,
  to: 'SW1 P03',
  label: '1003',
  words: 'Plug 1003 in.',
  why: 'crossed',
  interrupts: [],
  onAir: false,
  beyond: [],
  caution: null,
  needs: 'disconnect' as const,
  back: ['Pull it.'],
};

type Sample = { [K in string]: [kind: DraftKind<unknown>, ...values: unknown[]] };
const of = <T>(kind: DraftKind<T>, ...values: T[]) => [kind as DraftKind<unknown>, ...values] as Sample[string];

const wholeAnswers: SheetAnswers = {
  ...answers,
  cells: [{ sheet: 'A', column: 2, row: null, said: 'P01', also: ['P02'], as: 'typed', text: '' }],
  left: [{ sheet: 'A', from: 4, to: 9, like: { filled: [1], remark: 'sum', first: null } }],
  fixed: [{ sheet: 'A', headerRow: 2, meaning: 'fromRack', text: 'R2' }],
  unused: ['Old'],
};

const SAMPLES: Sample = {
  WALK: of(
    WALK,
    { place: null, paused: false, visit: null, acts: [], at: 0 },
    {
      place: 'SW1/P03',
      paused: true,
      visit: { unit: 'SW1', looks: [{ event: 'e1', places: ['SW1/P03'] }] },
      acts: [
        {
          event: 'e1',
          kind: 'slip',
          places: ['SW1/P03'],
          back: 'SW1/P03',
          words: 'SW1 P03, 1003',
          also: ['e2'],
          by: 'camera',
          again: [
            { instead: 'e1', kind: 'sighting', payload: sighting },
            { instead: 'e3', kind: 'note', payload: { place: 'SW1/P03', text: 'worn' } },
          ],
        },
      ],
      first: { text: '1003', by: 'wedge' },
      cables: null,
      notNow: ['SW1/P04'],
      asked: {
        type: 'earlier',
        sighting,
        earlier: [{ event: 'e0', author: 'Mara Field', at: 1, label: null, state: 'empty' }],
      },
      worked: ['SW1/P05'],
      at: 1_700_000_000_000,
    },
    {
      place: 'SW1/P03',
      paused: false,
      visit: null,
      acts: [],
      asked: { type: 'candidates', text: '10O1', by: 'typed', candidates: [{ id: '1001', label: '1001', line: '' }] },
      at: 5,
    },
    {
      place: null,
      paused: false,
      visit: null,
      acts: [],
      asked: { type: 'unlikely', text: 'x', by: 'camera', length: 50 },
      at: 5,
    },
  ),
  RANGE: of(RANGE, { unit: 'SW1', range: { first: 'SW1/P03', last: null, without: [] }, state: 'empty' }),
  WAY: of(WAY, { ...USUAL_WAY }),
  PHOTO_AT: of(PHOTO_AT, { place: null, words: 'here' }, { place: 'SW1/P03', words: 'SW1 P03', whole: true }),
  VOICE_AT: of(VOICE_AT, { place: 'SW1/P03', words: 'SW1 P03' }),
  RACK: of(RACK, NEW_RACK),
  UNIT: of(UNIT, NEW_UNIT, {
    ...NEW_UNIT,
    from: { label: 'MIO31', heightU: 1, mounted: 'front', jacks: [{ label: 'IN 1', connector: 'XLR' }], faces: [] },
  }),
  PART: of(PART, {
    form: 'breakout',
    label: '',
    plug: 'RJ45',
    legs: [{ kind: 'tail', label: 'L', connector: 'XLR', leg: 'left', into: 'SW1 P03' }],
    building: true,
  }),
  PANEL: of(PANEL, {
    form: 'trunk',
    label: 'T1',
    room: '',
    rack: '?',
    u: '',
    count: '25',
    rows: 1,
    connector: 'D-sub 50',
    sides: 'one',
    wires: 'pairs',
    first: '1',
    far: '',
  }),
  LEAD: of(LEAD, { from: 'PB1/A1', to: null, elsewhere: '', basis: 'followed' }),
  POWER: of(POWER, { kind: 'strip', label: 'PS1', outlets: 8, into: '', second: '' }),
  COLOURS: of(COLOURS, { first: '1', last: '25', label: 'T1', here: '', there: '', what: 'order' }),
  BRING_IN: of(
    BRING_IN,
    { sha256: 'ab', file: 'cables.csv', answers, accepted: 'k1\nk2', at: 5 },
    { sha256: 'ab', file: 'cables.csv', answers: wholeAnswers, accepted: '', at: 5 },
  ),
  SHAPES: of(
    SHAPES,
    [{ key: 'no\tfrom\tto', kind: null, columns: null, at: 5 }],
    [
      {
        key: 'no',
        kind: 'cables',
        columns: null,
        asFound: true,
        fixed: [{ meaning: 'fromRack', text: 'R2' }],
        left: [{ filled: [1, 3], remark: null, first: 'phase 2' }],
        at: 5,
      },
    ],
  ),
  SETTLED: of(SETTLED, [{ sha256: 'ab', answers }], [{ sha256: 'ab', answers: wholeAnswers }]),
  RENAMING: of(RENAMING, {
    source: 'paste',
    text: '1003, N1003',
    rule: NEW_RULE,
    read: {
      pairs: [{ row: 'row 1', old: '1003', new: 'N1003' }],
      unread: [{ row: 'row 2', said: '?', why: 'one name' }],
      columns: [{ sheet: 'Names', old: 'Old', new: 'New', header: true }],
      blank: 1,
      guesses: [{ row: 'row 3', said: '1 Jan', readAs: '1-1' }],
    },
    name: 'Pasted list',
    answers: { '1003': 'C1003' },
  }),
  STRIPS: of(STRIPS, [{ first: 1, count: 50, at: 5 }]),
  NAME_LATER: of(NAME_LATER, { audit: 'a1', at: 5 }),
  NAME_TYPED: of(NAME_TYPED, { name: 'Ma' }),
  START: of(START, { ...NEW_DRAFT, exclusions: [{ what: 'rack', label: 'R2', reason: 'Locked' }] }),
  WINDOW: of(WINDOW, { name: 'Tonight', permission: 'disconnect', racks: ['R1'], rooms: [], by: 'the control room' }),
  SIGN: of(SIGN, { by: 'Mara Field', reason: 'it stays', words: '' }),
  UNDER_WAY: of(UNDER_WAY, {
    block: {
      id: 'b1',
      type: 'work',
      steps: [step],
      waits: null,
      window: 'Tonight',
      onlyInWindow: true,
      lookAgain: [{ placeId: 'SW1/P03', words: 'SW1 P03' }],
    },
    done: 1,
    back: null,
  }),
  SITE_RULES: of(
    SITE_RULES,
    { edited: null, typed: NOTHING_TYPED },
    { edited: USUAL_RULES, typed: { ...NOTHING_TYPED, factor: '10' } },
  ),
  TEXT: of(TEXT, '', 'half a wo'),
  FLAG: of(FLAG, true, false),
};

describe('what is kept', () => {
  it.each(Object.entries(SAMPLES))('is read again as it was: %s', (_, [kind, ...values]) => {
    for (const value of values) {
      expect(kind.read(structuredClone(value), kind.version)).toEqual(value);
      // Before there were versions, the same was kept without one.
      expect(kind.read(structuredClone(value), 0)).toEqual(value);
    }
  });

  it('by an earlier build without what came later is read, and the rest is as it begins', () => {
    expect(WALK.read({ place: 'SW1/P03' }, 0)).toEqual({
      place: 'SW1/P03',
      paused: false,
      visit: null,
      acts: [],
      at: 0,
    });
    const { rows: _, along: __, ...earlyWay } = USUAL_WAY;
    expect(WAY.read(earlyWay, 0)).toEqual(USUAL_WAY);
    const { group: _g, from: _f, ...earlyUnit } = NEW_UNIT;
    expect(UNIT.read(earlyUnit, 0)).toEqual(NEW_UNIT);
    const { audioPins: _a, pairs: _p, ...earlyRules } = USUAL_RULES;
    const { aes3: _x, pairs: _y, ...earlyTyped } = NOTHING_TYPED;
    expect(SITE_RULES.read({ edited: earlyRules, typed: earlyTyped }, 0)).toEqual({
      edited: USUAL_RULES,
      typed: NOTHING_TYPED,
    });
  });

  it('by a newer build is not read as if it were of this one', () => {
    for (const [kind, ...values] of Object.values(SAMPLES)) expect(kind.read(values[0], kind.version + 1)).toBeNull();
  });
});

describe('anything else', () => {
  const foreign = fc.oneof(
    fc.anything({ withDate: true, withMap: true, withSet: true, withBigInt: true, withSparseArray: true }),
    fc.jsonValue(),
    // Near misses: a sample of another kind, and one with a field changed.
    fc.constantFrom(...Object.values(SAMPLES).flatMap(([, ...values]) => values)),
    fc
      .tuple(
        fc.constantFrom(
          ...Object.values(SAMPLES).flatMap(([, ...values]) => values.filter((v) => v instanceof Object)),
        ),
        fc.nat(),
        fc.anything(),
      )
      .map(([value, n, put]) => {
        const keys = Object.keys(value as object);
        return { ...(value as object), [keys[n % keys.length] ?? 'x']: put };
      }),
  );

  it.each(Object.entries(SAMPLES))('fits or does not, and never throws: %s', (_, [kind]) => {
    fc.assert(
      fc.property(foreign, fc.nat(3), (value, version) => {
        const read = kind.read(value, version);
        // What fits is of the form: read again it is the same.
        if (read !== null) expect(kind.read(structuredClone(read), kind.version)).toEqual(read);
      }),
    );
  });

  it('of the form of another kind is not cast', () => {
    expect(WALK.read({ place: 3 }, 0)).toBeNull();
    expect(WALK.read('SW1/P03', 0)).toBeNull();
    expect(WALK.read({ place: 'SW1/P03', acts: [{ id: 'e1' }] }, 0)).toBeNull();
    expect(TEXT.read({ text: 'x' }, 0)).toBeNull();
    expect(START.read({ ...NEW_DRAFT, occasion: 'another' }, 1)).toBeNull();
  });
});

it('each kind is called by words of its own', () => {
  const words = Object.values(DRAFT_NAMES);
  expect(new Set(words).size).toBe(words.length);
  expect(keyToWords('walk:a1')).toBe(DRAFT_NAMES.walk);
  expect(keyToWords('fixes a1')).toBe(DRAFT_NAMES.fixes);
  expect(keyToWords('start-audit')).toBe(DRAFT_NAMES['start-audit']);
  expect(keyToWords('constructor:x')).toBe('Something another version kept');
});

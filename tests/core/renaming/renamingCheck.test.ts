// A list of renames as people write it, and what is said about it before it is accepted. Data invented.
import { describe, expect, it } from 'vitest';
import { indexPlan } from '../../../src/core/plan/planIndex.ts';
import { EVENT_VERSION, MAX_EVENT_TEXT } from '../../../src/core/record/eventLimits.ts';
import { readEvent } from '../../../src/core/record/events.ts';
import { checkRenames, type ListedPair, renamesToEvents } from '../../../src/core/renaming/renamingCheck.ts';
import { applyRule, readRenames, ruleToPairs } from '../../../src/core/renaming/renamingRead.ts';
import { at, event, planOf } from '../record/build.ts';

const plan = planOf([
  ['2004', 'COD41 AES OUT', 'DIO21 I1'],
  ['2005', 'COD42 AES OUT', 'DIO22 I1'],
  ['2006', 'COD43 AES OUT', 'DIO23 I1'],
  ['0101', 'MIC1 OUT', 'MIO31 M1'],
  ['mic 7', 'MIC7 OUT', ''],
]);
const index = indexPlan(plan);
const check = (pairs: [old: string, fresh: string][], more: Partial<Parameters<typeof checkRenames>[0]> = {}) =>
  checkRenames({
    index,
    pairs: pairs.map(([old, fresh], i): ListedPair => ({ row: `row ${i + 1}`, old, new: fresh })),
    answers: {},
    ...more,
  });
const problems = (pairs: [string, string][], more = {}) =>
  check(pairs, more).map((row) => row.problems.map(({ type }) => type).join(','));
const warnings = (pairs: [string, string][], more = {}) =>
  check(pairs, more).map((row) => row.warnings.map(({ type }) => type).join(','));

describe('a list as people write it', () => {
  const rows = (...lines: string[][]) => readRenames([{ name: 'Sheet', rows: lines }]);

  it('finds the two columns by their heads, wherever they stand', () => {
    for (const [old, fresh] of [
      ['Old', 'New'],
      ['From', 'To'],
      ['Current label', 'Becomes'],
      ['OLD NO.', 'NEW NO.'],
      ['Present name', 'Future name'],
    ] as const) {
      const read = rows(['Codecs'], ['Notes', fresh, old], ['x', '3005', '2005'], ['', '', ''], ['y', '', '2006']);
      expect(read.pairs).toEqual([{ row: 'row 3', old: '2005', new: '3005' }]);
      expect(read.unread.map(({ row, why }) => `${row}: ${why}`)).toEqual([
        'row 1: above the column headings',
        'row 5: no new name',
      ]);
      expect(read.blank).toBe(1);
    }
  });

  it('takes two bare columns, and arrows in pasted lines', () => {
    expect(rows(['2004', '2005'], ['2005', '2004']).pairs).toHaveLength(2);
    expect(rows(['2004 -> 2005'], ['0101 → MIC-1'], ['nonsense']).pairs).toEqual([
      { row: 'row 1', old: '2004', new: '2005' },
      { row: 'row 2', old: '0101', new: 'MIC-1' },
    ]);
    expect(rows(['2004 -> 2005'], ['nonsense']).unread).toEqual([
      { row: 'row 2', said: 'nonsense', why: 'no new name' },
    ]);
  });

  it('tells what the file left unclear in the two columns, and no other', () => {
    const notes = [
      { row: 2, column: 1, said: '2004', readAs: '2004; the cell is a number, zeros in front may be lost' },
      { row: 2, column: 3, said: '1 May', readAs: '1 May' },
    ];
    const read = readRenames([
      {
        name: 'Sheet',
        rows: [
          ['old', 'new', 'day'],
          ['2004', '1', '1 May'],
        ],
        notes,
      },
    ]);
    expect(read.guesses.map(({ row, said }) => `${row}: ${said}`)).toEqual(['row 2: 2004']);
  });

  it('says every row once: read, not read or blank', () => {
    const read = rows(['old', 'new'], ['a', 'b'], ['', 'c'], ['', ''], ['d', '']);
    expect(read.pairs.length + read.unread.length + read.blank).toBe(4);
  });
});

describe('a rule', () => {
  it('changes a prefix, adds to numbers, replaces text, pads', () => {
    expect(applyRule('2005', { only: '', type: 'add', offset: 1000 })).toBe('3005');
    expect(applyRule('0009-A', { only: '', type: 'add', offset: 3 })).toBe('0012-A');
    expect(applyRule('5', { only: '', type: 'add', offset: -6 })).toBeNull();
    expect(applyRule('ST1-MIC', { only: '', type: 'prefix', from: 'ST1', to: 'STA' })).toBe('STA-MIC');
    expect(applyRule('A-A', { only: '', type: 'replace', find: 'A', with: 'B' })).toBe('B-B');
    expect(applyRule('M7', { only: '', type: 'pad', digits: 3 })).toBe('M007');
    expect(applyRule('M', { only: '', type: 'pad', digits: 3 })).toBeNull();
  });
  it('touches only the labels it is for', () => {
    const pairs = ruleToPairs(plan.cables, { only: '20', type: 'add', offset: 1 });
    expect(pairs.map(({ old, new: fresh }) => `${old}>${fresh}`)).toEqual(['2004>2005', '2005>2006', '2006>2007']);
    expect(problems(pairs.map(({ old, new: fresh }) => [old, fresh]))).toEqual(['', '', '']);
  });
});

describe('the check of a list', () => {
  it('lets exchanges and chains through', () => {
    expect(
      problems([
        ['2004', '2005'],
        ['2005', '2004'],
      ]),
    ).toEqual(['', '']);
    expect(
      check([
        ['2004', '2005'],
        ['2005', '2004'],
      ]).map(({ exchanges }) => exchanges),
    ).toEqual([true, true]);
    expect(
      problems([
        ['2004', '2005'],
        ['2005', '2006'],
        ['2006', '2007'],
      ]),
    ).toEqual(['', '', '']);
  });
  it('refuses a name in use by a cable that stays', () => {
    expect(problems([['2004', '2005']])).toEqual(['new-in-use']);
    expect(
      problems([
        ['2004', '20 07'],
        ['2005', '20-07'],
      ]),
    ).toEqual(['new-twice', 'new-twice']);
    expect(
      problems([
        ['2004', '3004'],
        ['2004', '3005'],
      ]),
    ).toEqual(['old-twice', 'old-twice']);
  });
  it('asks where a name fits only leniently, and takes the answer', () => {
    expect(check([['2OO4', '3004']])[0]!.problems).toMatchObject([
      { type: 'ask-old', candidates: [{ cable: '2004' }] },
    ]);
    expect(problems([['2OO4', '3004']], { answers: { 'row 1': '2004' } })).toEqual(['']);
    expect(check([['MIC-7', 'MIC-8']])[0]).toMatchObject({
      cable: 'MIC-7',
      warnings: [{ type: 'read-as' }, { type: 'end-unknown' }],
    });
    expect(problems([['9999', '3004']])).toEqual(['unknown-old']);
  });
  it('warns of look-alikes, of long names, of ends out of scope', () => {
    expect(
      warnings([
        ['2004', 'IOOI'],
        ['2005', '1001'],
      ]),
    ).toEqual(['look-alike', 'look-alike']);
    expect(warnings([['2004', '101']])).toEqual(['look-alike']);
    expect(warnings([['2004', 'A-VERY-LONG-LABEL-INDEED']])).toEqual(['long']);
    expect(warnings([['2004', '3004']], { inScope: (place: string) => place === at('COD41 AES OUT') })).toEqual([
      'out-of-scope',
    ]);
    expect(warnings([['2004', 'DIO21']])).toEqual(['names-else']);
    expect(
      problems([
        ['2004', '30\u202e04'],
        ['2005', '2005'],
        ['2006', 'x'.repeat(513)],
      ]),
    ).toEqual(['control-signs', 'same-name', 'longer-than-label']);
    expect(problems([['2004', '3004']], { listed: [{ cable: '2004', old: '2004', new: '7' }] })).toEqual([
      'listed-before',
    ]);
  });
});

describe('a long list', () => {
  it('goes into as many events as fit, none too long and none lost', () => {
    const renames = Array.from({ length: 4000 }, (_, i) => ({ cable: `C${i}`, old: `C${i}`, new: `NEW-${i}` }));
    const parts = renamesToEvents('list', 'All “of” them', renames);
    expect(parts.length).toBeGreaterThan(2);
    expect(parts.flatMap((part) => part.renames)).toEqual(renames);
    for (const part of parts) {
      const text = JSON.stringify(event('renaming-listed', part, { v: EVENT_VERSION }));
      expect(text.length).toBeLessThan(MAX_EVENT_TEXT);
      expect(readEvent(text).type).toBe('event');
    }
    expect(renamesToEvents('list', 'none', [])).toEqual([]);
  });
});

describe('a row that leans on another', () => {
  it('falls with it: a chain whose end is refused is refused as a whole', () => {
    expect(
      problems([
        ['2004', '2005'],
        ['2005', '2006'],
        ['2006', '0101'],
      ]),
    ).toEqual(['new-in-use', 'new-in-use', 'new-in-use']);
    expect(
      problems([
        ['2004', '2005'],
        ['2005', '2006'],
        ['2006', '9'],
      ]),
    ).toEqual(['', '', '']);
  });
});

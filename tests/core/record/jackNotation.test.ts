// Jacks in one line: what engineers write beside a unit in a drawing. Common practice, no source; data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jacksToNotation, labelsToRows, parseJacks } from '../../../src/core/record/jackNotation.ts';
import { CONNECTOR_NAMES } from '../../../src/core/record/jackWords.ts';
import { nameToKey } from '../../../src/core/trade/names.ts';

const labels = (text: string) => parseJacks(text).jacks.map(({ label }) => label);

describe('jacks in one line', () => {
  it('counts out inputs with their connector, and one more jack by name', () => {
    const { jacks, problems } = parseJacks('8 × XLR in, 1 x RJ45 NET');
    expect(problems).toEqual([]);
    expect(jacks).toHaveLength(9);
    expect(jacks[7]).toEqual({ label: 'IN 8', connector: 'XLR', direction: 'in' });
    expect(jacks[8]).toEqual({ label: 'NET', connector: 'RJ45' });
  });

  it.each([
    ['IN L/R', ['IN L', 'IN R']],
    ['P01-P04', ['P01', 'P02', 'P03', 'P04']],
    ['P01..P03', ['P01', 'P02', 'P03']],
    ['4 x RJ45 P05', ['P05', 'P06', 'P07', 'P08']],
    ['2 x BNC REF', ['REF 1', 'REF 2']],
    ['3 x TRS out', ['OUT 1', 'OUT 2', 'OUT 3']],
    ['2 x DB25', ['J1', 'J2']],
    ['MAIN; AUX', ['MAIN', 'AUX']],
    ['8 x XLR IN 1-IN 8', ['IN 1', 'IN 2', 'IN 3', 'IN 4', 'IN 5', 'IN 6', 'IN 7', 'IN 8']],
    ['2 x XLR IN L/R', ['IN L', 'IN R']],
    ['1 x XLR in IN L', ['IN L']],
    ['XLR in', []],
  ])('reads %s', (text, expected) => {
    expect(labels(text)).toEqual(expected);
  });

  it('makes two rows of two ranges', () => {
    expect(parseJacks('J1-J3/J4-J6').rows).toEqual([
      ['J1', 'J2', 'J3'],
      ['J4', 'J5', 'J6'],
    ]);
  });

  it('takes a direction from the name', () => {
    expect(parseJacks('OUT 1-2').jacks).toEqual([
      { label: 'OUT 1', direction: 'out' },
      { label: 'OUT 2', direction: 'out' },
    ]);
  });

  it.each([
    ['8 x XLR in, P9-P3', 12, 'cannot be counted'],
    ['0 x XLR in', 0, 'Between 1 and 512'],
    ['J1-J3, J2', 7, 'there already'],
    ['3 x P01-P02', 0, '3 were said'],
    ['XLR', 0, 'How many'],
  ])('tells what in %s it cannot read, and where', (text, at, why) => {
    const { problems } = parseJacks(text);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.at).toBe(at);
    expect(problems[0]!.why).toContain(why);
  });

  it('writes what it has read so that it reads back to the same', () => {
    const run = fc.record({
      connector: fc.option(fc.constantFrom('XLR', 'RJ45', 'BNC', 'D-sub 25'), { nil: undefined }),
      direction: fc.option(fc.constantFrom('in', 'out', 'both'), { nil: undefined }),
      before: fc.constantFrom('P', 'J', 'M', 'LINE ', 'X-', 'IN ', 'OUT '),
      first: fc.integer({ min: 1, max: 20 }),
      count: fc.integer({ min: 1, max: 30 }),
      digits: fc.integer({ min: 1, max: 3 }),
    });
    fc.assert(
      fc.property(fc.array(run, { maxLength: 4 }), (runs) => {
        const jacks = runs.flatMap(({ connector, direction, before, first, count, digits }, r) =>
          Array.from({ length: count }, (_, i) => ({
            label: `${before}${r}0${String(first + i).padStart(digits, '0')}`,
            ...(connector ? { connector } : {}),
            ...(direction ? { direction: direction as 'in' } : {}),
          })),
        );
        // A name that begins with a direction tells it, said or not.
        const told = jacks.map((one) =>
          /^(IN|OUT) /.test(one.label) && !('direction' in one)
            ? { ...one, direction: one.label.startsWith('IN') ? ('in' as const) : ('out' as const) }
            : one,
        );
        const unique = told.filter(({ label }, i) => told.findIndex((one) => one.label === label) === i);
        expect(parseJacks(jacksToNotation(unique))).toMatchObject({ jacks: unique, problems: [] });
      }),
    );
  });

  it.each([
    [[{ label: 'XLR 1' }, { label: 'XLR 2' }], '2 x "XLR 1"-"XLR 2"'],
    [[{ label: 'IN, L', connector: 'XLR', direction: 'in' as const }], '1 x XLR in "IN, L"'],
    [[{ label: 'IN 1' }], '1 x "IN 1"'],
    [[{ label: '1/4" L', connector: 'TRS' }], undefined],
    [[{ label: 'say "A"' }, { label: '“B”' }], undefined],
    [[{ label: 'A/B' }, { label: 'J1-J4' }, { label: 'IN L/R' }, { label: '8 x XLR' }], undefined],
    [[{ label: 'constructor' }, { label: '__proto__' }, { label: 'none' }, { label: 'in' }], undefined],
    [
      [
        { label: 'NET', connector: 'a plug, nobody knows' },
        { label: ' two  spaces ', connector: 'xlr' },
      ],
      undefined,
    ],
    [[{ label: 'first\nsecond', direction: 'none' as const }], undefined],
  ])('keeps %j, whatever the notation makes of such a name', (jacks, written) => {
    const text = jacksToNotation(jacks);
    if (written !== undefined) expect(text).toBe(written);
    expect(parseJacks(text)).toMatchObject({ jacks, problems: [] });
  });

  it.each([
    ['4 x XLR in "XLR 1"', ['XLR 1', 'XLR 2', 'XLR 3', 'XLR 4']],
    ['“IN, L”, “IN, R”', ['IN, L', 'IN, R']],
    ['XLR "TRS 1".."TRS 3"', ['TRS 1', 'TRS 2', 'TRS 3']],
  ])('reads %s, typed with the quotes of any keyboard', (text, expected) => {
    expect(parseJacks(text).problems).toEqual([]);
    expect(labels(text)).toEqual(expected);
  });

  it.each([
    ['8 x XLR in, "IN, L', 12, 'not closed'],
    ['""', 0, 'between the quotes'],
    ['"A" "B" "C"', 0, 'only a range'],
    ['3 x "A1"-"A2"', 0, '3 were said'],
  ])('tells what is wrong with the quotes of %s', (text, at, why) => {
    const { problems } = parseJacks(text);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ at, why: expect.stringContaining(why) });
  });

  it('gives back the same jacks for any names, connectors and directions at all', () => {
    const hostile = fc.constantFrom(
      ...CONNECTOR_NAMES,
      ...['in', 'OUT', 'none', '8 x', ',', ';', '/', '-', '..', '"', '“', '”', '""', 'L/R', '1', '02', '\n', ' ', '\t'],
      ...['constructor', '__proto__', '\u200B', 'É', 'ﬁ', '×', '\uD800', 'J1-J4', 'thru', '999', '1/4"'],
    );
    const name = fc
      .oneof(
        fc.string({ unit: 'grapheme', maxLength: 12 }),
        fc.array(hostile, { minLength: 1, maxLength: 5 }).map((parts) => parts.join(' ')),
        fc.array(hostile, { minLength: 1, maxLength: 5 }).map((parts) => parts.join('')),
        fc.tuple(fc.constantFrom('XLR ', 'IN, ', '"', 'N ', 'P'), fc.nat(40)).map((parts) => parts.join('')),
      )
      .filter((label) => nameToKey(label) !== '');
    const jack = fc.record(
      {
        label: name,
        connector: fc.oneof(fc.constantFrom(...CONNECTOR_NAMES), name),
        direction: fc.constantFrom('in' as const, 'out' as const, 'both' as const, 'none' as const),
      },
      { requiredKeys: ['label'] },
    );
    fc.assert(
      fc.property(fc.uniqueArray(jack, { maxLength: 12, selector: ({ label }) => nameToKey(label) }), (jacks) => {
        const read = parseJacks(jacksToNotation(jacks));
        expect(read.problems).toEqual([]);
        expect(read.jacks).toEqual(jacks.map((one) => ({ ...one })));
      }),
      { numRuns: 300 },
    );
  });

  it('never throws and drops nothing: every part is read or told', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        const { jacks, problems } = parseJacks(text);
        const parts = text.split(/[,;\n]/).filter((part) => part.trim() !== '').length;
        expect(parts === 0 || jacks.length + problems.length > 0).toBe(true);
        for (const { at, said } of problems) expect(text.slice(at, at + said.length)).toBe(said);
      }),
    );
  });
});

describe('rows of a face', () => {
  const eight = ['P1', 'P2', 'P3', 'P4', 'P5', 'P6', 'P7', 'P8'];
  it('sets odd over even, or one half over the other', () => {
    expect(labelsToRows(eight, 'odd-over-even')).toEqual([
      ['P1', 'P3', 'P5', 'P7'],
      ['P2', 'P4', 'P6', 'P8'],
    ]);
    expect(labelsToRows(eight, 'one-after-the-other')[1]).toEqual(['P5', 'P6', 'P7', 'P8']);
    expect(labelsToRows(eight, 'one')).toEqual([eight]);
  });
});

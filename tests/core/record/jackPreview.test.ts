// A line of jacks as people write it without thinking of a form, and what is shown before it counts. How the trade
// writes such lines is common practice, no source; data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type JackGroup, jacksToGroups, parseJacks } from '../../../src/core/record/jackNotation.ts';
import { CONNECTOR_NAMES } from '../../../src/core/record/jackWords.ts';
import { nameToKey } from '../../../src/core/trade/names.ts';
import { NEW_UNIT, unitToPayload, unitTrouble } from '../../../src/ui/describe/describeDraft.ts';

/** `IN 1..IN 8 XLR in` for a group of several, `NET RJ45` for one jack. */
function told({ labels, connector, direction }: JackGroup): string {
  const name = labels.length > 1 ? `${labels[0]}..${labels.at(-1)}` : labels[0];
  return [name, connector, direction].filter(Boolean).join(' ');
}
const read = (text: string) => jacksToGroups(parseJacks(text).jacks).map(told);

describe('a line as it is written without thinking', () => {
  it.each([
    ['16 XLR', ['J1..J16 XLR']],
    ['8 XLR in', ['IN 1..IN 8 XLR in']],
    ['8 in XLR', ['IN 1..IN 8 XLR in']],
    ['24 RJ45', ['J1..J24 RJ45']],
    ['24-port RJ45', ['J1..J24 RJ45']],
    ['24 ports', ['J1..J24']],
    ['8 off BNC', ['J1..J8 BNC']],
    ['2 BNCs', ['J1..J2 BNC']],
    ['XLR in x 8', ['IN 1..IN 8 XLR in']],
    ['P01-P24 RJ45', ['P01..P24 RJ45']],
    ['P01-P08 XLR in', ['P01..P08 XLR in']],
    ['24 RJ45 P01', ['P01..P24 RJ45']],
    ['8 XLR in + 1 RJ45', ['IN 1..IN 8 XLR in', 'J1 RJ45']],
    ['8 XLR in and 1 RJ45 NET', ['IN 1..IN 8 XLR in', 'NET RJ45']],
    ['4 XLR in, 4 XLR out, 2x RJ45 (A/B)', ['IN 1..IN 4 XLR in', 'OUT 1..OUT 4 XLR out', 'A RJ45', 'B RJ45']],
    ['2 RJ45 (PRI, SEC)', ['PRI RJ45', 'SEC RJ45']],
    ['2 x RJ45 NET (A/B)', ['NET A RJ45', 'NET B RJ45']],
    ['2 x RJ45 PRI/SEC', ['PRI RJ45', 'SEC RJ45']],
    ['16 XLR, 2 RJ45', ['J1..J16 XLR', 'J17..J18 RJ45']],
    ['4 XLR in, 4 TRS in', ['IN 1..IN 4 XLR in', 'IN 5..IN 8 TRS in']],
    ['8 mic in', ['mic in 1..mic in 8 in']],
    ['REF BNC', ['REF BNC']],
    ['REF N', ['REF N']],
    ['10 MHz BNC', ['10 MHz BNC']],
    ['IN L + R', ['IN L in', 'IN R in']],
    ['J1-J24/J25-J48 RJ45', ['J1..J48 RJ45']],
    ['"8 XLR"', ['8 XLR']],
  ])('%s', (text, groups) => {
    expect(parseJacks(text).problems).toEqual([]);
    expect(read(text)).toEqual(groups);
  });

  it.each([
    ['16 mic', '16 mic', 'Is 16 a count?'],
    ['8 XLR in, 12 XRL', '12 XRL', 'Is 12 a count?'],
    ['24 RJ45 (PoE)', '24 RJ45 (PoE)', '24 were said'],
    ['2 RJ45 ()', '2 RJ45 ()', 'no name between'],
    ['in XLR', 'in XLR', 'How many'],
    ['99999 XLR', '99999 XLR', 'Between 1 and 512'],
    ['0 RJ45', '0 RJ45', 'Between 1 and 512'],
  ])('%s: tells what it does not understand, and makes nothing of it', (text, said, why) => {
    const { jacks, problems } = parseJacks(text);
    expect(problems).toEqual([expect.objectContaining({ said, why: expect.stringContaining(why) })]);
    expect(jacks.every(({ label }) => !said.includes(label))).toBe(true);
    expect(unitTrouble({ ...NEW_UNIT, label: 'AIO-9', notation: text }, { type: 'room' }, null, '')).toContain(said);
  });

  it('lets no line make more jacks than an entry can hold', () => {
    const many = Array.from({ length: 6 }, (_, i) => `512 x ${'ABCDEF'[i]}`).join(', ');
    const { jacks, problems } = parseJacks(many);
    expect(jacks).toHaveLength(1024);
    expect(problems).toHaveLength(4);
    expect(parseJacks('1-400/401-800').jacks).toEqual([]);
    expect(parseJacks(`P${'9'.repeat(320)}-P${'9'.repeat(320)}`).problems).toHaveLength(1);
    expect(parseJacks('x'.repeat(5000)).problems[0]?.why).toContain('too long');
  });
});

describe('what is previewed is what is made', () => {
  const word = fc.constantFrom(
    ...CONNECTOR_NAMES,
    ...['in', 'out', 'in/out', 'x', '×', '8', '16', '512', '1', '0', '024', '+', 'and', ',', ';', '/', '-', '..', 'to'],
    ...['(A/B)', '(', ')', '(1-4)', 'L/R', 'P01-P24', 'J1', 'NET', 'ports', 'off', '10 MHz', '"', '"IN, L"', '\n', 'é'],
  );
  const line = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 80 }),
    fc.array(word, { maxLength: 14 }).map((parts) => parts.join(' ')),
    fc.array(word, { maxLength: 14 }).map((parts) => parts.join('')),
  );

  it('for any line at all: nothing throws, each part is made or named, the groups are the jacks in their order', () => {
    fc.assert(
      fc.property(line, (notation) => {
        const noted = parseJacks(notation);
        const shown = jacksToGroups(noted.jacks).flatMap(({ labels, connector, direction }) =>
          labels.map((label) => ({ label, ...(connector ? { connector } : {}), ...(direction ? { direction } : {}) })),
        );
        const made = unitToPayload({ ...NEW_UNIT, label: 'AIO-9', notation }, { type: 'room' }, null, []);
        expect(made.jacks).toEqual(shown);
        expect(made.faces.flatMap(({ rows }) => rows.flat()).sort()).toEqual(shown.map(({ label }) => label).sort());
        expect(noted.jacks.length).toBeLessThanOrEqual(1024);
        expect(new Set(noted.jacks.map(({ label }) => nameToKey(label))).size).toBe(noted.jacks.length);
        for (const { at, said } of noted.problems) expect(notation.slice(at, at + said.length)).toBe(said);
        // Correcting what is told must be enough: the rest stays as it was shown.
        if (noted.problems.length > 0)
          expect(unitTrouble({ ...NEW_UNIT, label: 'AIO-9', notation }, { type: 'room' }, null, '')).not.toBeNull();
      }),
      { numRuns: 600 },
    );
  });
});

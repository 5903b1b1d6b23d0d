// Jackets and marks in sentences for walk and report, and that nothing is joined by them. Prints, marks and places are
// invented; 1 ft is 0.3048 m (NIST SP 811).
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../../src/core/plan/model.ts';
import type { AuditEvent, Payload } from '../../../../src/core/record/events.ts';
import { recordToPlan } from '../../../../src/core/report/plan/recordToPlan.ts';
import { reconciliation } from '../../../../src/core/report/reconciliation.ts';
import { marksView } from '../../../../src/core/report/walk/marksView.ts';
import { lengthToWords } from '../../../../src/core/report/words/markWords.ts';
import { foldAll } from '../../../../src/core/rules/fold.ts';
import { at, event, planOf, started, statement } from '../../record/build.ts';

const PRINT = '4 PAIR 23 AWG LSZH 1804';
const begin = started({ occasion: 'inherit', plan: null });
const read = (words: string, mark: number, more: Partial<Payload<'jacket-read'>> = {}) =>
  event('jacket-read', { place: at(words), print: PRINT, mark, unit: 'm', ...more });
const bare = (words: string) => statement([words], 'unlabelled');
const facts = (events: AuditEvent[]) => foldAll(emptyPlan, [begin, ...events]);
const lineAt = (events: AuditEvent[], words: string) => marksView(facts(events), [at(words)]).here[0]?.fits?.line;

describe('at a jack', () => {
  const pair = [bare('SW1 P03'), bare('SW2 P07'), read('SW1 P03', 212), read('SW2 P07', 226)];

  it('says which end fits, how long the cable is between the marks, and that it is probable', () => {
    expect(lineAt(pair, 'SW1 P03')).toBe(
      'Jacket and marks fit the end at SW2 P07 (about 14 m of cable between the marks). Probable.',
    );
    const [here] = marksView(facts(pair), [at('SW2 P07')]).here;
    expect(here?.fits).toMatchObject({ certainty: 'probable', far: { place: at('SW1 P03'), bare: true, twin: null } });
  });

  it('names the rack of the far end', () => {
    const plan = planOf([['1001', 'SW1 P03', 'SW2 P07']]);
    const racked = {
      ...plan,
      racks: [{ id: 'R2', label: 'R2', heightU: 42, numbering: 'bottom-up' as const, implied: false }],
      units: plan.units.map((unit) => (unit.id === 'SW2' ? { ...unit, rack: 'R2', u: 7 } : unit)),
    };
    const [here] = marksView(foldAll(racked, [begin, ...pair]), [at('SW1 P03')]).here;
    expect(here?.fits?.line).toContain('fit the end at R2 SW2 P07 (');
  });

  it('says that three share the print, and what each would be', () => {
    const three = [...pair, read('AIO1 I1', 243)];
    expect(lineAt(three, 'SW1 P03')).toBe(
      '3 ends have this print; the marks give 14 m to SW2 P07 and 31 m to AIO1 I1. They cannot show which one it is.',
    );
  });

  it('counts the rest where many share the print', () => {
    const many = Array.from({ length: 12 }, (_, i) => read(`SW${i + 1} P01`, 10 * i));
    expect(lineAt(many, 'SW1 P01')).toBe(
      '12 ends have this print; the marks give 10 m to SW2 P01, 20 m to SW3 P01, 30 m to SW4 P01 and 8 more. They cannot show which one it is.',
    );
  });

  it('tells the twin that the far end bears already', () => {
    const put = event('label-put', { place: at('SW2 P07'), text: 'U-003', upon: [pair[1]!.id], why: 'twin' });
    expect(lineAt([...pair, put], 'SW1 P03')).toContain('the end at SW2 P07, which has tag U-003 (about 14 m');
  });

  it('says nothing about a jack without a jacket, and nothing of an end that fits none', () => {
    expect(marksView(facts(pair), [at('SW1 P04')]).here).toEqual([]);
    expect(lineAt([read('SW1 P03', 212)], 'SW1 P03')).toBeUndefined();
  });

  it('tells both readings where two people wrote down something else', () => {
    const [here] = marksView(facts([...pair, read('SW1 P03', 215)]), [at('SW1 P03')]).here;
    expect(here).toMatchObject({ differ: true, readings: [{ mark: 212 }, { mark: 215 }], fits: null });
  });
});

describe('the lists', () => {
  it('offer prints already written once each, exactly as written last', () => {
    const events = [
      read('SW1 P01', 1),
      read('SW1 P02', 2, { print: 'RG 59 B/U', unit: 'ft' }),
      read('SW1 P03', 3, { print: '4 pair 23 awg lszh 1804' }),
    ];
    expect(marksView(facts(events), []).prints).toEqual([
      { print: '4 pair 23 awg lszh 1804', unit: 'm' },
      { print: 'RG 59 B/U', unit: 'ft' },
    ]);
  });

  it('tell each pair once, probable before undecided, in the report too, and join nothing in the plan', () => {
    const other = { print: '2 PAIR' };
    const events = [
      ...['SW1 P01', 'SW1 P02', 'SW1 P03', 'SW2 P07', 'SW2 P08'].map(bare),
      read('SW1 P01', 5, other),
      read('SW1 P02', 15, other),
      read('SW2 P08', 25, other),
      read('SW1 P03', 212),
      read('SW2 P07', 226),
    ];
    const fold = facts(events);
    expect(reconciliation(fold, 'a', '').toProve).toEqual([
      {
        ends: 'SW1 P03 and SW2 P07',
        certainty: 'probable',
        words: `About 14 m of cable between the marks. Probable. Printed: ${PRINT}, 212 m and 226 m.`,
      },
      {
        ends: 'SW1 P01, SW1 P02 and SW2 P08',
        certainty: 'undecided',
        words:
          '3 ends have the print “2 PAIR”; the marks cannot show which two belong together. Marks: 5 m, 15 m and 25 m.',
      },
    ]);
    const without = facts(events.filter(({ kind }) => kind !== 'jacket-read'));
    expect(recordToPlan(fold, 'found', null)).toEqual(recordToPlan(without, 'found', null));
    expect(recordToPlan(fold, 'found', null).counts).toMatchObject({ bothEnds: 0, unknown: 5 });
    expect(fold.discrepancies()).toEqual(without.discrepancies());
  });
});

describe('a length', () => {
  it('is told in the unit of the jacket, feet with their metres', () => {
    expect([lengthToWords(14, 'm'), lengthToWords(2.26, 'm'), lengthToWords(46 * 0.3048, 'ft')]).toEqual([
      '14 m',
      '2.3 m',
      '46 ft (14 m)',
    ]);
  });
});

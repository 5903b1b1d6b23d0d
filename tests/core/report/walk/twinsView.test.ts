// What the screens are told of temporary numbers: the other end in the verdict, one number on two cables, and search
// over what stands on the floor alone. The facts of the number given twice are a field scenario of the project
// (invented).
import { describe, expect, it } from 'vitest';
import { emptyPlan, type Plan } from '../../../../src/core/plan/model.ts';
import type { AuditEvent } from '../../../../src/core/record/events.ts';
import { searchFloor } from '../../../../src/core/report/walk/floorSearch.ts';
import { twinsView } from '../../../../src/core/report/walk/twinsView.ts';
import { verdictAt } from '../../../../src/core/report/walk/verdict.ts';
import { foldAll } from '../../../../src/core/rules/fold.ts';
import { createStation } from '../../../../src/core/rules/station.ts';
import { at, event, planOf, saw, started, statement } from '../../record/build.ts';

const begin = started({ occasion: 'inherit', plan: null });
function put(words: string, text: string, log: string, author: string): AuditEvent[] {
  const look = statement([words], 'unlabelled');
  return [look, event('label-put', { place: at(words), text, upon: [look.id], why: 'twin' }, { log, author })];
}
const twice = (text: string) => [
  ...put('PP1 P17', text, 'a', 'I. Halloran'),
  ...put('WP2 7', text, 'a', 'I. Halloran'),
  ...put('SW1 P10', text, 'b', 'R. Quill'),
];

describe('the verdict on a temporary number', () => {
  const rows: Plan = planOf([['1003', 'CON32 NET', 'SW1 P03']], [{ at: 'SW1 P07' }, { at: 'SW2 P20' }]);
  const plan: Plan = {
    ...rows,
    racks: [{ id: 'R1', label: 'R1', room: 'Technical room', heightU: 42, numbering: 'bottom-up', implied: false }],
    units: rows.units.map((unit) => (unit.id === 'SW1' ? { ...unit, rack: 'R1', u: 12 } : unit)),
  };
  it('names the first end with its rack before it says that the plan has no such cable', () => {
    const events = [started(), ...put('SW1 P07', 'U-014', 'a', 'I. Halloran'), saw('SW2 P20', 'U-014')];
    const verdict = verdictAt(foldAll(plan, events), at('SW2 P20'));
    expect(verdict).toMatchObject({ jack: 'P20', label: 'U-014', variant: 'differs' });
    expect(verdict.second).toBe('U-014: other end at R1 SW1 P07. SW2 P20: U-014 is not in the plan.');
  });
  it('says at the first end that the other one is still wanted', () => {
    const events = [started(), ...put('SW1 P07', 'U-014', 'a', 'I. Halloran')];
    expect(verdictAt(foldAll(plan, events), at('SW1 P07')).second).toContain('U-014: other end not seen yet.');
  });
  it('never calls the other cable of a number given twice its other end', () => {
    const fold = foldAll(emptyPlan, [begin, ...twice('U-016')]);
    expect(verdictAt(fold, at('SW1 P10')).second).toContain(
      'U-016: other end not seen yet. It is a duplicate: see More, Temporary tags.',
    );
    expect(verdictAt(fold, at('WP2 7')).second).toContain('U-016: other end at PP1 P17. It is a duplicate');
  });
});

describe('a number given twice', () => {
  it('is offered for change where fewer labels are stuck', () => {
    const { given, open, both } = twinsView(foldAll(emptyPlan, [begin, ...twice('U-016')]), null, 'a');
    expect(given[0]?.issuers.map(({ author, places }) => [author, places.length])).toEqual([
      ['R. Quill', 1],
      ['I. Halloran', 2],
    ]);
    expect(open.map(({ text, places }) => [text, ...places.map(({ words }) => words)])).toEqual([['U-016', 'SW1 P10']]);
    expect(both.map(({ places }) => places.map(({ words }) => words))).toEqual([['PP1 P17', 'WP2 7']]);
  });
  it('is offered for change where it was given later, when as many labels are stuck on both', () => {
    const one = [...put('PP1 P17', 'U-001', 'a', 'I. Halloran'), ...put('SW1 P10', 'U-001', 'b', 'R. Quill')];
    const { given } = twinsView(foldAll(emptyPlan, [begin, ...one]), null, 'a');
    expect(given[0]?.issuers.map(({ author }) => author)).toEqual(['R. Quill', 'I. Halloran']);
  });
});

describe('search over the floor', () => {
  const station = (events: AuditEvent[], plan?: Plan) => {
    const made = createStation();
    if (plan) made.addPlan('p', plan);
    const adopted = event('plan-adopted', { revision: 'p', name: 'test', bytes: 1 });
    made.addTexts([...(plan ? [adopted] : []), ...events].map((one) => JSON.stringify(one)));
    return made;
  };
  const lines = (made: ReturnType<typeof station>, text: string) =>
    searchFloor(made, text).map(({ label, places, given }) => [label, places.join(' and '), given?.author]);
  it('shows both cables of a number given twice, each with its giver', () => {
    const made = station([begin, ...twice('1016')]);
    const both = [
      ['1016', 'PP1 P17 and WP2 7', 'I. Halloran'],
      ['1016', 'SW1 P10', 'R. Quill'],
    ];
    expect(lines(made, '1016')).toEqual(both);
    expect(lines(made, '101')).toEqual(both);
    expect(lines(made, '1017')).toEqual([]);
    expect(lines(made, '  ')).toEqual([]);
  });
  it('leaves to the plan what the plan knows by now', () => {
    const made = station([begin, ...put('A 1', 'U-003', 'a', 'I. Halloran'), saw('A 2', 'U-004')]);
    expect(lines(made, 'u-00')).toEqual([
      ['U-003', 'A 1', undefined],
      ['U-004', 'A 2', undefined],
    ]);
    const known = station([begin, saw('A 2', 'U-004'), saw('A 3', 'U-005')], planOf([['U-004', 'A 2', 'B 2']]));
    expect(lines(known, 'u-00')).toEqual([['U-005', 'A 3', undefined]]);
  });
});

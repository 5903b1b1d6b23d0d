// What a person is told of a newer sheet: counts that add up, lists that are cut off and say so. Invented data.
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../../../src/core/plan/model.ts';
import { againstPlan, LINES_SHOWN } from '../../../../src/core/report/plan/revisionView.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';

const HEADER = ['Cable No', 'From Unit', 'From Jack', 'To Unit', 'To Jack', 'Circuit'];
const row = (number: string, from: string, to: string, circuit = '') => [
  number,
  ...from.split(' '),
  ...to.split(' '),
  circuit,
];

function read(...rows: string[][]): Plan {
  const result = readTables([{ name: 'Cables', rows: [HEADER, ...rows] }], { name: 'List' });
  if (result.type !== 'plan') throw new Error(result.why);
  return result.plan;
}

function told(old: Plan, next: Plan) {
  const { view } = againstPlan(next, { revision: 'r1', plan: old }).compared;
  const lines = Object.fromEntries(
    view.groups.map((group) => [
      `${group.item} ${group.kind}`,
      group.lines.map((line) => `${line.what}: ${line.words}`),
    ]),
  );
  return { view, lines };
}

describe('revisionView', () => {
  const old = read(
    row('1001', 'SW1 P01', 'CON1 NET', 'Desk'),
    row('1002', 'SW1 P02', 'CON2 NET'),
    row('1003', 'SW1 P03', 'CON3 NET'),
    row('1004', 'SW1 P04', 'CON4 NET'),
    row('1005', 'SW1 P05', 'CON5 NET'),
    row('1006', 'SW1 P06', 'CON6 NET'),
  );

  it('says in words what was added, taken away, moved, renumbered, exchanged and changed', () => {
    const { lines, view } = told(
      old,
      read(
        row('1001', 'SW1 P01', 'CON1 NET', 'Desk A'),
        row('1002', 'SW1 P09', 'CON2 NET'),
        row('2003', 'SW1 P03', 'CON3 NET'),
        row('1005', 'SW1 P04', 'CON4 NET'),
        row('1004', 'SW1 P05', 'CON5 NET'),
        row('1010', 'SW1 P10', 'CON7 NET'),
      ),
    );
    expect(lines).toMatchObject({
      'cable added': ['1010: SW1 P10 to CON7 NET'],
      'cable removed': ['1006: SW1 P06 to CON6 NET'],
      'cable moved': ['1002: from end: SW1 P09, was SW1 P02'],
      'cable renamed': ['2003: was 1003; SW1 P03 to CON3 NET'],
      'cable exchanged': ['1004 and 1005: 1005 is now SW1 P04 to CON4 NET; 1004 is now SW1 P05 to CON5 NET'],
      'cable changed': ['1001: circuit: Desk A, was Desk'],
      'unit added': ['CON7: '],
      'unit removed': ['CON6: '],
    });
    expect(view.cables).toEqual({ before: 6, after: 6, same: 0 });
    expect(view.groups.find(({ kind }) => kind === 'exchanged')?.n).toBe(2);
  });

  it('says that nothing changes', () => {
    const { view } = told(
      old,
      read(
        ...[...old.cables]
          .reverse()
          .map((cable) =>
            row(
              cable.label,
              `${cable.ends[0]?.unit} ${cable.ends[0]?.jack}`,
              `${cable.ends[1]?.unit} ${cable.ends[1]?.jack}`,
              cable.circuit,
            ),
          ),
      ),
    );
    expect(view.groups).toEqual([]);
    expect(view.cables.same).toBe(6);
  });

  it('counts what it does not list', () => {
    const many = Array.from({ length: LINES_SHOWN + 30 }, (_, i) => row(`9${i}`, `PP1 ${i + 1}A`, `PP2 ${i + 1}A`));
    const { view } = told(old, read(...many));
    const added = view.groups.find(({ item, kind }) => item === 'cable' && kind === 'added');
    expect(added?.n).toBe(LINES_SHOWN + 30);
    expect(added?.lines).toHaveLength(LINES_SHOWN);
  });
});

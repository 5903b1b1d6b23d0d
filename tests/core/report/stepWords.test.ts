// Steps of the work name place and thing, and what several entries tell alike is one step. Data invented.
import { describe, expect, it } from 'vitest';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { fixesView } from '../../../src/core/report/fixesView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf([
  ['1003', 'CON32 NET', 'SW1 P03'],
  ['1004', 'MIO33 NET', 'SW1 P04'],
  ['1005', 'MIO34 NET', 'SW1 P05'],
  ['2001', 'SAT1 OUT', 'AIO21 I1'],
]);
const begun = (occasion: 'after-move' | 'relabel') => started({ permission: 'disconnect', occasion });
const stepsOf = (occasion: 'after-move' | 'relabel', ...events: AuditEvent[]) =>
  fixesView(foldAll(plan, [begun(occasion), ...events]), 'a').blocks.flatMap(({ steps }) =>
    steps.map(({ words }) => words),
  );
const hazard = (author: string, note: string, kind = 'strain') =>
  event('hazard-seen', { place: at('SW1 P03'), hazard: kind, note }, { author });

describe('a step of the work', () => {
  it('begins with its place and names the thing', () => {
    const steps = [
      ...stepsOf(
        'after-move',
        saw('SW1 P03', '1004', { basis: 'followed', joinedTo: at('MIO33 NET') }),
        statement(['SW1 P04'], 'empty'),
        statement(['AIO21 I1'], 'unlabelled'),
        hazard('R. Quill', 'hangs'),
      ),
      ...stepsOf('relabel', saw('SW1 P05', '1003'), statement(['SW1 P04'], 'empty'), saw('AIO21 I1', 'X9')),
    ];
    expect(steps.length).toBeGreaterThan(6);
    for (const words of steps) expect(words).toMatch(/^(?:SW1|AIO21|MIO33|CON32|Off-air|Look at|Follow)[^:]*: ?\S/);
    expect(steps).toContain('SW1 P03: move 1004 to P04.');
    expect(steps).toContain(
      'SW1 P04: decide about 1004 (jack is empty, the plan has a cable): fix the wiring, update the plan or leave it.',
    );
  });

  it('is one where two people tell the same hazard at one place, and two where they tell two', () => {
    const told = (...events: AuditEvent[]) =>
      stepsOf('after-move', ...events).filter((words) => /chief engineer/.test(words));
    expect(told(hazard('R. Quill', 'hangs'), hazard('I. Halloran', 'by its plug'))).toHaveLength(1);
    expect(told(hazard('R. Quill', 'hangs'), hazard('I. Halloran', 'no bond', 'earth'))).toHaveLength(2);
    expect(told(hazard('R. Quill', 'hangs'))[0]).toMatch(/^SW1 P03: tell the chief engineer: .+\.$/);
  });
});

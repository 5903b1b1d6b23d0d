// The audit at a glance: what differs, what one look would settle and what nobody saw are told apart. Data invented.
import { describe, expect, it } from 'vitest';
import { homeView } from '../../../src/core/report/walk/homeView.ts';
import { createStation } from '../../../src/core/rules/station.ts';
import { at, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf([
  ['1003', 'CON32 NET', 'SW1 P03'],
  ['1004', 'MIO33 NET', 'SW1 P04'],
  ['1005', 'PLY71 NET', 'SW1 P05'],
]);

function summary(occasion: 'after-move' | 'inherit') {
  const station = createStation();
  station.addPlan('p', plan);
  const events = [
    started({ occasion }),
    // Crossed, or labels exchanged: labels alone cannot tell.
    saw('SW1 P03', '1004'),
    saw('SW1 P04', '1003'),
    saw('CON32 NET', '1003'),
    statement(['SW1 P05'], 'empty'),
    statement(['PLY71 NET'], 'not-visible'),
  ];
  station.addTexts(events.map((event, i) => JSON.stringify({ ...event, audit: 'a', seq: i + 1 })));
  return homeView(station).audits[0]!;
}

describe('strokes', () => {
  it('of cables: the end that one look settles is undecided, an empty jack differs', () => {
    expect(summary('after-move').strokes.map(({ label, from, to }) => [label, from, to])).toEqual([
      ['1003', 'as-planned', 'undecided'],
      ['1004', 'not-seen', 'undecided'],
      ['1005', 'not-seen', 'differs'],
    ]);
  });
  it('of jacks: one that could not be seen was not seen', () => {
    const states = new Map(summary('inherit').jacks.map(({ place, state }) => [place, state]));
    expect(states.get(at('SW1 P03'))).toBe('undecided');
    expect(states.get(at('CON32 NET'))).toBe('as-planned');
    expect(states.get(at('PLY71 NET'))).toBe('not-seen');
    expect(states.get(at('MIO33 NET'))).toBe('not-seen');
  });
});

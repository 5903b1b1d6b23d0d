// What the plan's screens are told. Plan invented.
import { describe, expect, it } from 'vitest';
import { indexPlan } from '../../../../src/core/plan/planIndex.ts';
import { unitView } from '../../../../src/core/report/plan/planView.ts';
import { HITS_SHOWN, searchPlan } from '../../../../src/core/report/plan/searchPlan.ts';
import { planOf } from '../../record/build.ts';

const index = indexPlan(
  planOf(
    [
      ['1003', 'CON32 NET', 'SW1 P03', { circuit: 'Studio B desk' }],
      ['0101', 'A O1', 'SW1 P04', { notes: 'same tray' }],
      ['9001', '', 'SW1 P05'],
    ],
    [{ at: 'SW1 P06' }],
  ),
);

describe('a unit', () => {
  it('lists every jack, the empty ones too, with the far end in words', () => {
    const jacks = unitView(index, 'SW1')?.jacks.map(({ label, cables }) => [
      label,
      ...cables.map((c) => `${c.label} to ${c.far}`),
    ]);
    expect(jacks).toEqual([
      ['P03', '1003 to CON32 NET'],
      ['P04', '0101 to A O1'],
      ['P05', '9001 to not in the plan'],
      ['P06'],
    ]);
  });
  it('is null when the plan has none of that name', () => {
    expect(unitView(index, 'SW9')).toBeNull();
  });
});

describe('search', () => {
  const found = (text: string) =>
    searchPlan(index, text)
      .flatMap(({ hits }) => hits)
      .map(({ type, label }) => `${type} ${label}`);
  it('puts the exact label first and finds circuits, notes, units and jacks by any part', () => {
    expect(found('1003')[0]).toBe('cable 1003');
    expect(found('studio b')).toEqual(['cable 1003']);
    expect(found('tray')).toEqual(['cable 0101']);
    expect(found('CON32')[0]).toBe('unit CON32');
    expect(found('sw1 p04')[0]).toBe('jack SW1 P04');
  });
  it('finds a look-alike without making it the same', () => {
    expect(found('IO1')).toContain('cable 0101');
    expect(found('zzz')).toEqual([]);
    expect(found('   ')).toEqual([]);
  });
  it('finds any part of a room, a type, a length, a serial and a jack', () => {
    const more = indexPlan({
      ...planOf([['1003', 'CON32 NET', 'SW1 P03', { type: 'Cat6 blue', length: '31 m', signalText: 'Enet PoE' }]]),
      racks: [{ id: 'R7', label: 'R7', room: 'Annex', heightU: 42, numbering: 'bottom-up', implied: false }],
    });
    const of = (text: string) =>
      searchPlan(more, text)
        .flatMap(({ hits }) => hits)
        .map(({ type, label }) => `${type} ${label}`);
    expect(of('cat6')).toEqual(['cable 1003']);
    expect(of('31 m')).toEqual(['cable 1003']);
    expect(of('poe')).toEqual(['cable 1003']);
    expect(of('annex')).toEqual(['rack R7']);
    expect(of('p03')).toEqual(['cable 1003', 'jack SW1 P03']);
    expect(searchPlan(more, 'sw1 p03')[0]?.hits[0]).toMatchObject({ type: 'jack', cable: '1003' });
  });
  it('finds a jack by what its list says of it, and takes signs of patterns and wide figures for themselves', () => {
    const plan = planOf([['1003', 'CON32 NET', 'SW1 P03', { notes: 'grün (x+y)*' }]]);
    const jacks = plan.jacks.map((jack) => (jack.label === 'P03' ? { ...jack, notes: 'strip HOST [A]' } : jack));
    const noted = indexPlan({ ...plan, jacks });
    const of = (text: string) =>
      searchPlan(noted, text)
        .flatMap(({ hits }) => hits)
        .map(({ type, label }) => `${type} ${label}`);
    expect(of('host [a')).toEqual(['jack SW1 P03']);
    expect(of('(x+y)*')).toEqual(['cable 1003']);
    expect(of('GRU\u0308N')).toEqual(['cable 1003']);
    expect(of('１００３')).toEqual(['cable 1003']);
    expect(of('1.*3')).toEqual([]);
    expect(of('x'.repeat(200))).toEqual([]);
  });
  it('counts what it does not list', () => {
    const many = Array.from({ length: 70 }, (_, i): [string, string, string] => [`4${i}`, `PP1 A${i}`, `PP2 B${i}`]);
    const groups = searchPlan(indexPlan(planOf(many)), 'pp1');
    expect(groups.map(({ type, n, hits }) => [type, n, hits.length])).toEqual([
      ['unit', 1, 1],
      ['cable', 70, HITS_SHOWN],
      ['jack', 70, HITS_SHOWN],
    ]);
  });
});

// The seventeen findings of a walk through the invented station of the fixtures, on its run list as it was received, each
// with the verdict that an engineer would give. Invented data; addresses from RFC 5737.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { explain } from '../../../src/core/causes/explain.ts';
import { decisionsOf } from '../../../src/core/fixes/decisions.ts';
import { planFixes } from '../../../src/core/fixes/fixes.ts';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import { readSheetFile } from '../../../src/files/sheet.ts';
import { at, event, saw, started, statement } from '../record/build.ts';

let plan: Plan;

beforeAll(async () => {
  const file = readFileSync(new URL('../../fixtures/quillmere-run-list.csv', import.meta.url));
  const sheet = await readSheetFile(file, 'quillmere-run-list.csv');
  if (sheet.type !== 'tables') throw new Error(sheet.error.what);
  const read = readTables(sheet.tables, { name: 'Quillmere' });
  if (read.type !== 'plan') throw new Error(read.why);
  // From the station's unit list and channel list, which the run list does not hold.
  const heights: Record<string, number> = { HYB41: 24, DIO22: 29, AIO21: 30 };
  plan = {
    ...read.plan,
    units: read.plan.units.map((unit) => (unit.id in heights ? { ...unit, u: heights[unit.id]! } : unit)),
    settings: [
      ...read.plan.settings,
      { unit: 'MIO31', name: 'address', value: '192.0.2.31' },
      { unit: 'MIO33', name: 'address', value: '192.0.2.33' },
      { unit: 'AIO21', place: at('AIO21 I1'), name: 'channel', value: '2101' },
      { unit: 'DIO22', place: at('DIO22 I1'), name: 'channel', value: '2201' },
      { unit: 'PLY71', place: at('PLY71 GPIO'), name: 'pin 1', value: 'start' },
    ],
  };
});

function walk(...events: AuditEvent[]) {
  const fold = foldAll(plan, [started(), ...events]);
  // The list contradicts itself in row 30, which is no finding of the walk.
  const differences = fold.discrepancies().filter(({ kind }) => kind !== 'plan-contradiction');
  const explanation = explain(fold, differences);
  return {
    fold,
    ...explanation,
    causes: explanation.causes.map(({ kind, certainty, severity, labels }) =>
      [kind, certainty, severity, [...labels].sort().join()].join(' ').trim(),
    ),
    told: explanation.causes,
    differences: differences.map(({ kind, severity }) => `${kind} ${severity}`).sort(),
  };
}
const page = (unit: string, name: string, value: string, place?: string) =>
  event('setting-read', { unit, name, value, basis: 'page', ...(place ? { place: at(place) } : {}) });

describe('a finding at Quillmere', () => {
  it('F1: two labels exchanged at the switch: two stories, and the switch’s page tells which', () => {
    const { causes, nextLook } = walk(
      saw('SW1 P03', '1004'),
      saw('SW1 P04', '1003'),
      saw('CON32 NET', '1003'),
      saw('MIO33 NET', '1004'),
    );
    expect(causes).toEqual(['crossed-or-labels-exchanged possible undecided 1003,1004']);
    expect(nextLook).toMatchObject({ place: at('SW1 P03'), how: 'read-page' });
    expect(nextLook?.expect.map(({ sees }) => sees)).toEqual([
      { type: 'place', place: at('MIO33 NET') },
      { type: 'place', place: at('CON32 NET') },
    ]);
  });

  it('F2: three labels one port on, the first port empty: one shift', () => {
    // Record only if the ports are set alike; that nobody has read, so it counts as the services on them do.
    const { causes, alone } = walk(
      statement(['SW2 P01'], 'empty'),
      saw('SW2 P02', '1005'),
      saw('SW2 P03', '1006'),
      saw('SW2 P04', '1007'),
    );
    expect(causes).toEqual(['row-shifted probable service 1005,1006,1007']);
    expect(alone).toEqual([]);
  });

  it('F3: the labels of send and return exchanged at both ends: circuits right', () => {
    const { causes } = walk(
      saw('DIO22 O1', '2004'),
      saw('COD42 AES IN', '2004'),
      saw('COD42 AES OUT', '2005'),
      saw('DIO22 I1', '2005'),
    );
    expect(causes).toEqual(['labels-exchanged confirmed record 2004,2005']);
  });

  it('F4: the legs of one tail exchanged: told by itself, a service', () => {
    // One tail is no pattern: it takes two bad cables to say that they share a part.
    const { differences, causes, alone } = walk(page('SAT1', 'legs', 'exchanged', 'SAT1 OUT L/R'));
    expect(differences).toEqual(['left-right-swapped service']);
    expect(causes).toEqual([]);
    expect(alone).toHaveLength(1);
  });

  it('F5: a cord in the bay: the normal is passed by, undecided until somebody says why', () => {
    const { causes } = walk(
      statement(['PB1 J1 front'], 'unlabelled', { basis: 'followed', joinedTo: at('PB1 J27 front') }),
    );
    expect(causes).toEqual(['normal-bypassed confirmed undecided']);
  });

  it('F6: two pages show each other’s address: exchanged, on the air', () => {
    const { causes } = walk(page('MIO33', 'address', '192.0.2.31'), page('MIO31', 'address', '192.0.2.33'));
    expect(causes).toEqual(['addresses-exchanged confirmed on-air 192.0.2.31,192.0.2.33']);
  });

  it('F7: the hybrid two units higher, its cables on their jacks: the unit moved, record only', () => {
    const { causes, alone } = walk(
      saw('@R2/U26', 'HYB41', { places: ['@R2/U26'] }),
      saw('HYB41 OUT', '2002'),
      saw('HYB41 IN', '2003'),
      saw('HYB41 GPIO', '4003'),
    );
    expect(causes).toEqual(['unit-moved confirmed record HYB41']);
    expect(alone).toEqual([]);
  });

  it('F8: phantom power on a ribbon: equipment at risk, in no cause, and the first of the work', () => {
    const { fold, told, differences, alone } = walk(page('MIO31', 'phantom', 'on', 'MIO31 M3'));
    expect(differences).toEqual(['phantom-hazard equipment']);
    expect(told).toEqual([]);
    expect(alone).toHaveLength(1);
    const all = fold.discrepancies();
    const decisions = decisionsOf(fold, all).standing;
    const { blocks } = planFixes(fold, { differences: all, causes: [], decisions, permission: 'touch', rank: () => 0 });
    // Muted, then off; nothing is unplugged before.
    expect(blocks[0]!.steps.map(({ task }) => task).slice(0, 3)).toEqual(['tell-hazard', 'mute', 'phantom-off']);
    expect(blocks.flatMap(({ steps }) => steps).some(({ action }) => action === 'pull' || action === 'plug')).toBe(
      false,
    );
  });

  it('F9: a network lead in an audio input: equipment at risk, explained away by nothing', () => {
    const { told, differences, alone } = walk(
      statement(['AIO21 I3'], 'unlabelled', { basis: 'followed', joinedTo: at('SW2 P07') }),
    );
    expect(differences).toContain('signal-clash equipment');
    expect(told).toEqual([]);
    expect(alone.some((id) => id.startsWith('signal-clash'))).toBe(true);
  });

  it('F10: START makes the player stop: the function differs; which pins, no label can tell', () => {
    // On the air only where the list marks the closure so; 4002 is not marked.
    const { differences, causes } = walk(page('PLY71', 'pin 1', 'stop', 'PLY71 GPIO'));
    expect(differences).toEqual(['setting-differs service']);
    expect(causes).toEqual([]);
  });

  it('F11: the number at its ends and at a loose one: the old cable stayed, record only', () => {
    const { causes, alone } = walk(
      saw('PB1 J25', '2011'),
      saw('PB1 J26', '2011'),
      saw('MONA IN L/R', '2011'),
      saw('loose: under the desk of STA', '2011'),
    );
    expect(causes).toEqual(['old-cable-left probable record 2011']);
    expect(alone).toEqual([]);
  });

  it('F12: half a label that fits the planned number: record only', () => {
    const { differences, fold } = walk(
      statement(['LIO23 L1'], 'illegible', { plugs: [{ labels: [], pattern: '4?0?' }] }),
    );
    expect(differences).toEqual(['illegible-label record']);
    expect(fold.discrepanciesAt(at('LIO23 L1'))[0]!.plan).toBe('4001');
  });

  it('F13: a spare patched to a switch: in use, undecided', () => {
    const { differences, causes } = walk(saw('PP1 P13', '1012', { basis: 'followed', joinedTo: at('SW1 P09') }));
    expect(differences).toContain('spare-in-use undecided');
    expect(causes).toEqual([]);
  });

  it('F14: the telephone line not opened: not verified with its reason, and no difference', () => {
    const { fold, differences } = walk(statement(['HYB41 LINE'], 'refused', { reason: 'the carrier’s' }));
    expect(differences).toEqual([]);
    expect(fold.statusOf('5001')).toMatchObject({ type: 'not-verified', reason: 'the carrier’s' });
  });

  it('F15: a cut end without a tag: abandoned, record only', () => {
    const { differences, causes } = walk(statement(['loose: rear of PB1'], 'unlabelled'));
    expect(differences).toEqual(['abandoned-cable record']);
    expect(causes).toEqual([]);
  });

  it('F16: two sources with one channel: on the air, and the one against the list is named', () => {
    const { differences } = walk(
      page('AIO21', 'channel', '2101', 'AIO21 I1'),
      page('DIO22', 'channel', '2101', 'DIO22 I1'),
    );
    expect(differences).toEqual(['duplicate-channel on-air', 'setting-differs on-air']);
  });

  it('F17: near end right, far end hidden: one end seen, no difference', () => {
    const { fold, differences } = walk(
      saw('MIO31 M2', '3002'),
      statement(['MIC2 XLR'], 'not-visible', { reason: 'behind the desk' }),
    );
    expect(differences).toEqual([]);
    expect(fold.statusOf('3002')).toMatchObject({ type: 'one-end-seen', reason: 'behind the desk' });
  });
});

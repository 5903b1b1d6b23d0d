// A newer sheet against the plan in force: what is recognised keeps its id, and every difference is told once. The
// order of recognition (number and an end, both ends, number) is this project's own rule; the data are invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cable, CableEnd, Plan } from '../../../../src/core/plan/model.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import {
  changeToKind,
  comparePlans,
  exchangedNumbers,
  ITEMS,
  type Item,
  itemsOfBoth,
  type PlanChange,
} from '../../../../src/core/schedule/revisions/compare.ts';
import { keepIds } from '../../../../src/core/schedule/revisions/keepIds.ts';
import { plan, shuffle, sketch, sketchToPlan } from './planArbitrary.ts';

/** Applies what was told to the old plan, item by item; says nothing of its own. */
function apply(old: Plan, next: Plan, changes: readonly PlanChange[]): Record<Item, Map<string, unknown>> {
  const items = Object.fromEntries(
    ITEMS.map((item) => [item, new Map(structuredClone([...itemsOfBoth(old, next, item)[0]]))]),
  ) as Record<Item, Map<string, unknown>>;
  for (const change of changes) {
    const map = items[change.item];
    if (change.type === 'removed') map.delete(change.id);
    else if (change.type === 'added') map.set(change.id, change.value);
    else if (change.type === 'field') {
      const value = map.get(change.id) as Record<string, unknown>;
      if (change.to === undefined) delete value[change.field];
      else value[change.field] = change.to;
    } else if (change.type === 'end') {
      const cable = map.get(change.id) as Cable;
      cable.ends = cable.ends.filter(({ end }) => end !== change.end);
      if (change.to) cable.ends.push(change.to);
    }
  }
  return items;
}

/** Without what is no difference: the row, and the order of a cable's ends by letter. */
function bare(value: unknown): unknown {
  const { origin: _, ...rest } = value as { origin?: unknown; ends?: CableEnd[] };
  return rest.ends ? { ...rest, ends: [...rest.ends].sort((a, b) => (a.end < b.end ? -1 : 1)) } : rest;
}

function bareItems(items: Record<Item, Map<string, unknown>>) {
  return ITEMS.map((item) =>
    [...items[item]].map(([id, value]) => [id, bare(value)]).sort((a, b) => (String(a[0]) < String(b[0]) ? -1 : 1)),
  );
}

const itemsOf = (old: Plan, next: Plan) =>
  Object.fromEntries(ITEMS.map((item) => [item, itemsOfBoth(old, next, item)[1]])) as unknown as Record<
    Item,
    Map<string, unknown>
  >;
const kindsOf = (changes: readonly PlanChange[]) => changes.map((change) => `${changeToKind(change)} ${change.item}`);
const read = (...rows: string[]): Plan => {
  const result = readTables([{ name: 'Cables', rows: rows.map((row) => row.split(';')) }], { name: 'List' });
  if (result.type !== 'plan') throw new Error(result.why);
  return result.plan;
};
const HEADER = 'Cable No;From Unit;From Jack;To Unit;To Jack;Circuit;Notes';

describe('comparePlans', () => {
  it('finds nothing between a plan and itself, in whatever order its rows stand', () => {
    fc.assert(
      fc.property(plan, fc.integer(), (one, seed) => {
        expect(comparePlans(one, one)).toEqual([]);
        expect(comparePlans(one, structuredClone(one))).toEqual([]);
        expect(comparePlans(one, shuffle(one, seed))).toEqual([]);
      }),
    );
  });

  it('tells what turns the old revision into the new one, all of it and nothing else', () => {
    fc.assert(
      fc.property(plan, plan, (old, next) => {
        const kept = keepIds(old, next, 'r1');
        const changes = comparePlans(old, kept);
        expect(bareItems(apply(old, kept, changes))).toEqual(bareItems(itemsOf(old, kept)));
        // The way back is told as well, by the same items.
        expect(bareItems(apply(kept, old, comparePlans(kept, old)))).toEqual(bareItems(itemsOf(kept, old)));
        for (const item of ITEMS) {
          const [before, after] = itemsOfBoth(old, kept, item);
          const count = (type: string) => changes.filter((one) => one.item === item && one.type === type).length;
          expect(before.size - count('removed')).toBe(after.size - count('added'));
        }
      }),
    );
  });

  it('does not depend on the order of the rows', () => {
    fc.assert(
      fc.property(plan, plan, fc.integer(), (old, next, seed) => {
        const told = (of: Plan) => comparePlans(old, keepIds(old, of, 'r1'));
        const strip = (changes: PlanChange[]) =>
          changes.map((one) => ('value' in one ? { ...one, value: bare(one.value) } : one));
        expect(strip(told(shuffle(next, seed)))).toEqual(strip(told(next)));
      }),
    );
  });

  it('tells two cables that exchange numbers as such', () => {
    const old = read(HEADER, '2004;SW1;P01;SW2;P01', '2005;SW1;P02;SW2;P02', '2006;SW1;P03;SW2;P03');
    const next = keepIds(
      old,
      read(HEADER, '2005;SW1;P01;SW2;P01', '2004;SW1;P02;SW2;P02', '2006;SW1;P03;SW2;P03'),
      'r1',
    );
    const changes = comparePlans(old, next);
    expect(kindsOf(changes)).toEqual(['renamed cable', 'renamed cable']);
    expect(exchangedNumbers(changes)).toEqual([{ a: '2004', b: '2005', was: '2004', is: '2005' }]);
    expect(next.cables.map(({ id, label }) => [id, label])).toEqual([
      ['2004', '2005'],
      ['2005', '2004'],
      ['2006', '2006'],
    ]);
  });

  it('tells a moved end, another plug and other words for the same place apart', () => {
    const old = read(
      `${HEADER};To Connector`,
      '1;SW1;P01;SW2;P01;;;RJ',
      '2;SW1;P02;SW2;P02;;;RJ',
      '3;SW1;P03;SW2;P03;;;RJ',
    );
    const next = read(
      `${HEADER};To Connector`,
      '1;SW1;P01;SW2;P09;;;RJ',
      '2;SW1;P02;SW2;P02;;;XLR',
      '3;SW1;P03;sw2;P03;;;RJ',
    );
    const changes = comparePlans(old, keepIds(old, next, 'r1')).filter(({ item }) => item === 'cable');
    expect(changes.map((change) => [change.id, changeToKind(change)])).toEqual([
      ['1', 'moved'],
      ['2', 'changed'],
      ['3', 'written'],
    ]);
  });
});

describe('keepIds', () => {
  it('keeps every id through a renumbering, whatever the new numbers are', () => {
    fc.assert(
      fc.property(sketch, fc.integer({ min: 1, max: 20 }), (of, step) => {
        const old = sketchToPlan(of);
        const next = sketchToPlan({ ...of, cables: of.cables.map((row) => ({ ...row, number: row.number + step })) });
        const kept = keepIds(old, next, 'r1');
        const known = kept.cables.filter((cable) => cable.ends.every(({ place }) => place !== null));
        const oldIds = new Map(old.cables.map((cable) => [cable.ends.map(({ place }) => place).join(), cable.id]));
        for (const cable of known) expect(cable.id).toBe(oldIds.get(cable.ends.map(({ place }) => place).join()));
      }),
    );
  });

  it('gives every item one id, and never the id of an item that is gone', () => {
    fc.assert(
      fc.property(plan, plan, (old, next) => {
        const kept = keepIds(old, next, 'r1');
        for (const list of [kept.racks, kept.units, kept.jacks, kept.cables]) {
          expect(new Set(list.map(({ id }) => id)).size).toBe(list.length);
        }
        const jacks = new Set(kept.jacks.map(({ id }) => id));
        for (const { ends } of kept.cables)
          for (const { place } of ends) expect(place === null || jacks.has(place)).toBe(true);
        for (const jack of kept.jacks) expect(kept.units.some(({ id }) => id === jack.unit)).toBe(true);
      }),
    );
  });

  it('names the parent and is the same for the same two plans', () => {
    fc.assert(
      fc.property(plan, plan, (old, next) => {
        const kept = keepIds(old, next, 'r1');
        expect(kept.parent).toBe('r1');
        expect(JSON.stringify(keepIds(old, next, 'r1'))).toBe(JSON.stringify(kept));
        // Who was recognised once is recognised again.
        expect(comparePlans(kept, keepIds(kept, next, 'r2'))).toEqual([]);
      }),
    );
  });

  it('knows a cable by number and an end before both ends, and by both ends before the number', () => {
    const old = read(HEADER, '1;SW1;P01;SW2;P01', '2;SW1;P02;SW2;P02');
    // 1 moved its far end to where 2 was; 2 is gone.
    const moved = keepIds(old, read(HEADER, '1;SW1;P01;SW2;P02'), 'r1');
    expect(moved.cables[0]?.id).toBe('1');
    // The jacks of 2 bear the number 1 now; the cable with number 1 is gone.
    const renumbered = keepIds(old, read(HEADER, '1;SW1;P02;SW2;P02'), 'r1');
    expect(renumbered.cables[0]).toMatchObject({ id: '2', label: '1' });
    const elsewhere = keepIds(old, read(HEADER, '1;SW3;P08;SW4;P08'), 'r1');
    expect(elsewhere.cables[0]?.id).toBe('1');
  });

  it('keeps a number that is written twice apart by the ends, and look-alikes as they are', () => {
    const old = read(HEADER, '7;SW1;P01;SW2;P01', '7;SW1;P02;SW2;P02', '0101;SW1;P03;SW2;P03', '101;SW1;P04;SW2;P04');
    const next = read(HEADER, '101;SW1;P04;SW2;P04', '7;SW1;P02;SW2;P02', '0101;SW1;P03;SW2;P03', '7;SW1;P01;SW2;P01');
    expect(comparePlans(old, keepIds(old, next, 'r1'))).toEqual([]);
  });

  it('never gives a new cable the id of one that kept it through a new number', () => {
    const old = read(HEADER, '1003;SW1;P01;SW2;P01');
    const next = keepIds(old, read(HEADER, '2003;SW1;P01;SW2;P01', '1003;SW1;P05;SW2;P05'), 'r1');
    expect(next.cables.map(({ id, label }) => [label, id])).toEqual([
      ['2003', '1003'],
      ['1003', '1003~2'],
    ]);
    // And the sheet after that one finds both again.
    const again = keepIds(next, read(HEADER, '1003;SW1;P05;SW2;P05', '2003;SW1;P01;SW2;P01'), 'r2');
    expect(comparePlans(next, again)).toEqual([]);
  });

  it('recognises a renamed unit by its serial or its slot, with the places of its cables', () => {
    const units = (name: string, serial: string) => [
      {
        name: 'Units',
        rows: [
          ['Unit', 'Rack', 'U', 'Serial', 'Jacks'],
          [name, 'R1', '10', serial, 'P01-P04'],
          ['SW2', 'R1', '12', '', 'P01-P04'],
        ],
      },
      {
        name: 'Cables',
        rows: [
          ['Cable No', 'From Unit', 'From Jack', 'To Unit', 'To Jack'],
          ['1', name, 'P01', 'SW2', 'P01'],
        ],
      },
    ];
    const readBoth = (name: string, serial: string) => {
      const result = readTables(units(name, serial), { name: 'List' });
      if (result.type !== 'plan') throw new Error(result.why);
      return result.plan;
    };
    for (const [before, after] of [
      ['S1', 'S1'],
      ['', ''],
    ] as const) {
      const old = readBoth('SW1', before);
      const next = keepIds(old, readBoth('CORE', after), 'r1');
      expect(next.units[0]).toMatchObject({ id: 'SW1', label: 'CORE' });
      expect(next.cables[0]?.ends[0]).toMatchObject({ place: 'SW1/P01', unit: 'CORE' });
      expect(kindsOf(comparePlans(old, next))).toEqual(['written cable', 'renamed unit']);
    }
    // Another serial in the same slot is another unit.
    const replaced = keepIds(readBoth('SW1', 'S1'), readBoth('CORE', 'S9'), 'r1');
    expect(replaced.units[0]?.id).toBe('CORE');
  });

  it('recognises a renamed unit of a list of cables alone by the cables that stay in its jacks', () => {
    const cables = (unit: string, jack = '1') =>
      read(
        'Cable No;From;From Jack;To;To Jack',
        `1001;${unit};${jack};B;1`,
        `1002;${unit};2;B;2`,
        `1003;${unit};3;C;3`,
      );
    const old = cables('A');
    const next = keepIds(old, cables('AX'), 'r1');
    expect(kindsOf(comparePlans(old, next))).toEqual([
      'written cable',
      'written cable',
      'written cable',
      'renamed unit',
    ]);
    expect(next.units.map(({ id, label }) => [id, label])).toContainEqual(['A', 'AX']);
    // One cable alone may just as well have been moved to another unit.
    const one = (unit: string) => read('Cable No;From;From Jack;To;To Jack', `1001;${unit};1;B;1`, '1002;B;2;C;2');
    expect(kindsOf(comparePlans(one('A'), keepIds(one('A'), one('AX'), 'r1')))).toContain('moved cable');
  });

  it('knows a jack through zeros in front, and nothing else that is folded', () => {
    const old = read(HEADER, '1;SW1;P03;SW2;I1');
    const next = keepIds(old, read(HEADER, '1;SW1;P3;SW2;11'), 'r1');
    expect(next.cables[0]?.ends.map(({ place }) => place)).toEqual(['SW1/P03', 'SW2/11']);
    expect(comparePlans(next, keepIds(next, read(HEADER, '1;SW1;P3;SW2;11'), 'r2'))).toEqual([]);
  });
});

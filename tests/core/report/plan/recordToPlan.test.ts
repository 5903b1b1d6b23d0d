// A record made without any plan becomes one: what was found is in it, what nobody knows is in it as not known, and
// walking the same floor again finds nothing astray. Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { emptyPlan, planSchema } from '../../../../src/core/plan/model.ts';
import type { AuditEvent } from '../../../../src/core/record/events.ts';
import { recordToPlan } from '../../../../src/core/report/plan/recordToPlan.ts';
import { foldAll } from '../../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../../record/build.ts';

const unit = (label: string, jacks: string[]): AuditEvent =>
  event('unit-described', {
    label,
    rack: 'R9',
    u: 4,
    heightU: 1,
    mounted: 'front',
    jacks: jacks.map((one) => ({ label: one })),
    faces: [{ face: 'rear', through: false, rows: [jacks] }],
  });
const rack = event('rack-described', { label: 'R9', heightU: 20, numbering: 'bottom-up' });
const begin = started({ occasion: 'inherit', plan: null });
const floor = [begin, rack, unit('DA1', ['IN 1', 'OUT 1', 'OUT 2']), unit('MX2', ['1', '2', '3', '4'])];
const made = (events: AuditEvent[]) => recordToPlan(foldAll(emptyPlan, events), 'As found', null);

describe('a record made into a plan', () => {
  it('has a cable for each label, one end not known where nobody saw it, and says what is unknown', () => {
    const { plan, counts } = made([
      ...floor,
      saw('DA1 OUT 1', '77'),
      saw('MX2 1', '77'),
      saw('DA1 OUT 2', '78'),
      statement(['MX2 3'], 'unlabelled'),
      statement(['MX2 4'], 'empty'),
    ]);
    expect(counts).toEqual({ racks: 1, units: 2, jacks: 7, bothEnds: 1, oneEnd: 1, unknown: 1, differ: 0 });
    const ends = (label: string) => plan.cables.find((one) => one.label === label)!.ends.map(({ place }) => place);
    expect(ends('77')).toEqual([at('DA1 OUT 1'), at('MX2 1')]);
    expect(ends('78')).toEqual([at('DA1 OUT 2'), null]);
    expect(plan.cables.find(({ label }) => label === '')).toMatchObject({
      ends: [{ place: at('MX2 3') }, { place: null }],
      notes: 'no label; other end not known',
    });
    expect(plan.origin).toBe('walk');
  });

  it('takes marked ends for one cable and sets them where their letters say', () => {
    const { plan } = made([...floor, saw('DA1 OUT 1', '77-B'), saw('MX2 1', '77-A')]);
    expect(plan.cables).toHaveLength(1);
    expect(plan.cables[0]).toMatchObject({
      label: '77',
      ends: [
        { end: 'A', place: at('MX2 1') },
        { end: 'B', place: at('DA1 OUT 1') },
      ],
    });
  });

  it('joins what was followed, with a label at one end or at none', () => {
    const { plan } = made([
      ...floor,
      saw('DA1 OUT 1', '77', { basis: 'followed', joinedTo: at('MX2 1') }),
      statement(['MX2 1'], 'unlabelled'),
      statement(['DA1 OUT 2'], 'unlabelled', { basis: 'followed', joinedTo: at('MX2 2') }),
      statement(['MX2 2'], 'unlabelled'),
    ]);
    expect(plan.cables.map(({ label, ends }) => [label, ...ends.map(({ place }) => place)])).toEqual([
      ['77', at('DA1 OUT 1'), at('MX2 1')],
      ['', at('DA1 OUT 2'), at('MX2 2')],
    ]);
  });

  it('keeps the planned cables, each end where it was seen', () => {
    const plan = planOf([
      ['1001', 'A 1', 'B 1'],
      ['1002', 'A 2', 'B 2'],
    ]);
    const fold = foldAll(plan, [started(), saw('A 1', '1001'), saw('B 9', '1001')]);
    const next = recordToPlan(fold, 'As found', 'p').plan;
    expect(next.parent).toBe('p');
    expect(next.cables.map(({ ends }) => ends.map(({ place }) => place))).toEqual([
      [at('A 1'), at('B 9')],
      [at('A 2'), at('B 2')],
    ]);
  });

  it('knows no place for a planned end whose jack was seen empty, and notes where it was planned', () => {
    const plan = planOf([
      ['1001', 'A 1', 'B 1'],
      ['1002', 'A 2', 'B 2', { status: 'spare' }],
      ['1003', 'A 3', 'B 3'],
    ]);
    const empty = (words: string) => statement([words], 'empty');
    const fold = foldAll(plan, [started(), empty('A 1'), empty('A 2'), empty('A 3'), saw('B 9', '1003')]);
    const next = recordToPlan(fold, 'As found', 'p').plan;
    expect(next.cables.map(({ ends, notes }) => [...ends.map((end) => end.place), notes])).toEqual([
      [null, at('B 1'), 'planned at A 1, seen empty'],
      [at('A 2'), at('B 2'), undefined],
      [null, at('B 9'), 'planned at A 3, seen empty'],
    ]);
  });

  it('takes what was followed for one cable, whatever labels its ends bear', () => {
    const { plan, counts } = made([
      ...floor,
      saw('DA1 OUT 1', '77', { basis: 'followed', joinedTo: at('MX2 1') }),
      saw('MX2 1', '88'),
    ]);
    expect(plan.cables).toHaveLength(1);
    expect(plan.cables[0]).toMatchObject({
      label: '77',
      ends: [{ place: at('DA1 OUT 1') }, { place: at('MX2 1') }],
      notes: 'followed; also reads 88',
    });
    expect(counts.bothEnds).toBe(1);
  });

  it('takes nothing but a note from a jack where looks differ', () => {
    const { plan, counts } = made([...floor, saw('MX2 1', '77'), saw('MX2 1', '78'), saw('MX2 2', '77')]);
    expect(counts).toMatchObject({ differ: 1, oneEnd: 1, unknown: 1 });
    expect(plan.cables.map(({ label, ends, notes }) => [label, ends[0]?.place, notes])).toEqual([
      ['77', at('MX2 2'), undefined],
      ['', at('MX2 1'), 'looks differ: 77, 78'],
    ]);
  });

  const place = fc.constantFrom('DA1 IN 1', 'DA1 OUT 1', 'DA1 OUT 2', 'MX2 1', 'MX2 2', 'MX2 3', 'MX2 4', 'XX7 5');
  const statementOf = fc.oneof(
    fc.tuple(place, fc.constantFrom('77', '78', '77-A', '77-B', 'T9')).map(([words, label]) => saw(words, label)),
    fc
      .tuple(place, fc.constantFrom('empty', 'unlabelled', 'plugged'))
      .map(([words, state]) => statement([words], state as 'empty')),
    fc.tuple(place, place).map(([a, b]) => statement([a], 'unlabelled', { basis: 'followed', joinedTo: at(b) })),
    fc
      .tuple(place, place, fc.constantFrom('77', '78', 'T9'))
      .map(([a, b, label]) => saw(a, label, { basis: 'followed', joinedTo: at(b) })),
  );

  it('is the same in any order of the events, and a plan by its schema with names of its own', () => {
    fc.assert(
      fc.property(fc.array(statementOf, { maxLength: 14 }), fc.infiniteStream(fc.nat()), (events, dice) => {
        const all = [...floor, ...events];
        const picks = [...dice.take(all.length)];
        const shuffled = all
          .map((one, i) => [picks[i]!, one] as const)
          .sort((a, b) => a[0] - b[0])
          .map(([, one]) => one);
        const { plan } = made(all);
        // By their bytes: a plan is named by its hash.
        expect(JSON.stringify(made(shuffled).plan)).toBe(JSON.stringify(plan));
        expect(z.safeParse(planSchema, plan).success).toBe(true);
        expect(new Set(plan.cables.map(({ id }) => id)).size).toBe(plan.cables.length);
      }),
    );
  });

  it('is matched by the same floor walked again: nothing stands in another jack than planned', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.tuple(place, fc.constantFrom('77', '78', 'T9')), {
          selector: ([words]) => words,
          maxLength: 8,
        }),
        (seen) => {
          const looks = seen.map(([words, label]) => saw(words, label));
          const { plan } = made([...floor, ...looks]);
          const again = foldAll(plan, [started(), ...looks])
            .discrepancies()
            .map(({ kind }) => kind);
          expect(
            again.filter((kind) => kind === 'wrong-jack' || kind === 'unplanned-cable' || kind === 'empty-jack'),
          ).toEqual([]);
        },
      ),
    );
  });
});

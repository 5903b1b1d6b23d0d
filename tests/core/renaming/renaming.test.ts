// A rename is done when both ends bear the new label, the old ones are off and the settings follow, in whatever order
// the acts arrive; a name exchanged with another cable's is no exception. Data invented after the Quillmere list.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circuitsOver } from '../../../src/core/plan/circuits.ts';
import { indexPlan } from '../../../src/core/plan/planIndex.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { renamedPlan } from '../../../src/core/renaming/renamedPlan.ts';
import { halfDone, isHalfDone, type RenameStatus, renamings } from '../../../src/core/renaming/renaming.ts';
import { searchPlan } from '../../../src/core/report/plan/searchPlan.ts';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { type Fold, foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, short, started, statement } from '../record/build.ts';

const plan = planOf([
  ['2004', 'COD41 AES OUT', 'DIO21 I1'],
  ['2005', 'COD42 AES OUT', 'DIO22 I1'],
  ['2006', 'COD43 AES OUT', 'DIO23 I1'],
]);
const A = at('COD42 AES OUT');
const B = at('DIO22 I1');
const begun = started({ occasion: 'relabel', permission: 'touch' });
const listed = (...pairs: [cable: string, fresh: string][]) =>
  event('renaming-listed', {
    list: 'list-1',
    name: 'Codecs',
    renames: pairs.map(([cable, fresh]) => ({ cable, old: cable, new: fresh })),
  });
const put = (place: string, text: string, upon: AuditEvent) =>
  event('label-put', { place, text, upon: [upon.id], why: 'rename' });
const off = (place: string, text: string, upon: AuditEvent) => event('label-off', { place, text, upon: [upon.id] });
const of = (fold: Fold, cable: string): RenameStatus => renamings(fold).find((one) => one.cable === cable)!;

describe('exchange of names (field scenario 5)', () => {
  const list = listed(['2005', '2004'], ['2004', '2005']);
  const both = saw('COD42 AES OUT', '2004 | 2005');
  const far = saw('DIO22 I1', '2005');
  const fold = foldAll(plan, [begun, list, both, far]);

  it('says of the old label that it becomes 2004 and that the other end is done', () => {
    const verdict = verdictAt(fold, B);
    expect(verdict.label).toBe('2005');
    expect(verdict.word).toBe('old label, becomes 2004');
    expect(verdict.second).toContain('The other end is done');
    expect(verdict.second).toContain('COD42 AES OUT has 2004');
  });

  it('is no duplicate, no leftover, nothing unplanned, and not done', () => {
    expect(short(fold.discrepancies()).filter((line) => !/^(not-installed|empty-jack)/.test(line))).toEqual([]);
    expect(of(fold, '2005').state).toBe('first-end');
    expect(of(fold, '2004').state).toBe('untouched');
  });

  it('finds both meanings of 2004', () => {
    const hits = searchPlan(fold.index, '2004')
      .flatMap(({ hits }) => hits)
      .filter(({ type }) => type === 'cable');
    expect(
      hits
        .slice(0, 2)
        .map(({ id }) => id)
        .sort(),
    ).toEqual(['2004', '2005']);
    expect(hits.find(({ id }) => id === '2005')?.line).toMatch(/becomes 2004/);
    expect(hits.find(({ id }) => id === '2004')?.line).toMatch(/becomes 2005/);
  });

  it('may not be closed, and leaves the plan as it is', () => {
    expect(halfDone(fold).map(({ old, handedOver }) => [old, handedOver])).toEqual([['2005', null]]);
    expect(renamedPlan(plan, 'rev', renamings(fold)).plan).toBe(plan);
    expect(fold.index.cables.get('2005')?.label).toBe('2005');
  });

  it('does not take another cable’s label in the jack for the new one until somebody says so', () => {
    const crossed = foldAll(plan, [begun, list, saw('DIO22 I1', '2004')]);
    expect(of(crossed, '2005').ends[1]).toMatchObject({ unclear: true, newOn: null });
    expect(of(crossed, '2005').state).toBe('untouched');
    expect(verdictAt(crossed, B).variant).toBe('question');
    const meant = statement(['DIO22 I1'], 'label', { plugs: [{ labels: [{ text: '2004', means: '2005' }] }] });
    expect(of(foldAll(plan, [begun, list, meant]), '2005').ends[1]!.newOn).not.toBeNull();
  });

  it('becomes the plan in one step when both are done, and neither alone', () => {
    const looks = [saw('COD41 AES OUT', '2004'), saw('DIO21 I1', '2004'), saw('COD42 AES OUT', '2005'), far];
    const acts = (places: string[], old: string, fresh: string, [a, b]: AuditEvent[]) => [
      put(at(places[0]!), fresh, a!),
      put(at(places[1]!), fresh, b!),
      off(at(places[0]!), old, a!),
      off(at(places[1]!), old, b!),
    ];
    const first = acts(['COD42 AES OUT', 'DIO22 I1'], '2005', '2004', looks.slice(2));
    const half = foldAll(plan, [begun, list, ...looks, ...first]);
    expect(of(half, '2005').state).toBe('done');
    const alone = renamedPlan(plan, 'rev', renamings(half));
    expect(alone.plan).toBe(plan);
    expect(alone.left.map(({ old, why }) => `${old}: ${why}`)).toEqual(['2005: another cable still has the name 2004']);
    const second = acts(['COD41 AES OUT', 'DIO21 I1'], '2004', '2005', looks);
    const whole = foldAll(plan, [begun, list, ...looks, ...first, ...second]);
    expect(short(whole.discrepancies()).filter((line) => !/^(not-installed|empty-jack)/.test(line))).toEqual([]);
    const next = renamedPlan(plan, 'rev', renamings(whole)).plan;
    expect(next.cables.map(({ id, label }) => [id, label])).toEqual([
      ['2004', '2005'],
      ['2005', '2004'],
      ['2006', '2006'],
    ]);
    expect(next).toMatchObject({ parent: 'rev', origin: 'amendments' });
  });
});

describe('one rename', () => {
  const list = listed(['2005', 'AES-2005']);
  const a = saw('COD42 AES OUT', '2005');
  const b = saw('DIO22 I1', '2005');
  const acts = [put(A, 'AES-2005', a), put(B, 'AES-2005', b), off(A, '2005', a), off(B, '2005', b)];

  it('is done with all four acts and with no three of them, in any order and however often they arrive', () => {
    fc.assert(
      fc.property(
        fc.subarray(acts, { minLength: 0, maxLength: 4 }),
        fc.infiniteStream(fc.nat()),
        fc.boolean(),
        (chosen, order, twice) => {
          const given = [begun, list, a, b, ...chosen, ...(twice ? chosen : [])];
          const shuffled = given
            .map((one) => ({ one, key: order.next().value as number }))
            .sort((x, y) => x.key - y.key)
            .map(({ one }) => one);
          const status = of(foldAll(plan, shuffled), '2005');
          expect(status).toEqual(of(foldAll(plan, given), '2005'));
          expect(status.state === 'done').toBe(chosen.length === 4);
          const oneByOne = foldAll(plan, []);
          for (const one of shuffled) oneByOne.add([one]);
          expect(of(oneByOne, '2005')).toEqual(status);
        },
      ),
    );
  });

  it('is never done with one end', () => {
    const fold = foldAll(plan, [begun, list, a, b, acts[0]!, acts[2]!]);
    expect(of(fold, '2005').state).toBe('first-end');
    expect(isHalfDone(of(fold, '2005'))).toBe(true);
    expect(of(foldAll(plan, [begun, list, saw('DIO22 I1', 'AES-2005')]), '2005').state).toBe('first-end');
  });

  it('counts a new label alone that somebody else put on, and says who saw it', () => {
    const fold = foldAll(plan, [begun, list, saw('COD42 AES OUT', 'AES-2005'), saw('DIO22 I1', 'AES-2005')]);
    expect(of(fold, '2005')).toMatchObject({ state: 'done', ends: [{ newOn: { author: 'I. Halloran' } }, {}] });
    expect(fold.discrepancies().filter(({ labels }) => labels.includes('AES-2005'))).toEqual([]);
  });

  it('is undone again by taking an act back', () => {
    const undo = event('withdrawn', { target: { event: acts[1]!.id }, why: 'undo' });
    expect(of(foldAll(plan, [undo, begun, list, a, b, ...acts]), '2005').state).toBe('first-end');
  });

  it('agrees with a look that read one of the two labels', () => {
    const again = saw('COD42 AES OUT', '2005', {});
    const fold = foldAll(plan, [begun, list, again, a, acts[0]!]);
    expect(fold.stateAt(A).type).toBe('label');
    expect(of(fold, '2005').state).toBe('first-end');
    // Taken off, and then read again: somebody has to say which.
    expect(foldAll(plan, [begun, list, again, a, acts[0]!, acts[2]!]).stateAt(A).type).toBe('conflict');
  });

  it('is handed over in words', () => {
    const words = event('handed-over', { what: 'renaming', items: ['2005'], words: 'P. Oduya does DIO22' });
    const fold = foldAll(plan, [begun, list, words, a, acts[0]!]);
    expect(of(fold, '2005').handedOver).toBe('P. Oduya does DIO22');
    expect(isHalfDone(of(fold, '2005'))).toBe(true);
  });

  it('stays half done while two lists want two names', () => {
    const other = event('renaming-listed', {
      list: 'list-2',
      name: 'Other',
      renames: [{ cable: '2005', old: '2005', new: '9005' }],
    });
    const fold = foldAll(plan, [begun, list, other, a, b, ...acts]);
    expect(renamings(fold).filter(({ clash }) => clash)).toHaveLength(2);
    expect(renamings(fold).some(({ state }) => state === 'done')).toBe(false);
  });
});

describe('settings that name the cable', () => {
  const withSettings = planOf(
    [
      ['2005', 'COD42 AES OUT', 'DIO22 I1'],
      ['2004', 'COD41 AES OUT', 'DIO22 I2'],
    ],
    [],
    {
      settings: [
        { unit: 'DIO22', place: B, name: 'source name', value: 'Codec 2005' },
        { unit: 'DIO22', name: 'strip', value: '2005 / 2004' },
        { unit: 'DIO22', place: B, name: 'channel', value: '12005' },
      ],
    },
  );
  const list = listed(['2005', '2004'], ['2004', '2005']);
  const a = saw('COD42 AES OUT', '2005');
  const b = saw('DIO22 I1', '2005');
  const acts = [put(A, '2004', a), put(B, '2004', b), off(A, '2005', a), off(B, '2005', b)];
  const read = (name: string, value: string, place?: string) =>
    event('setting-read', { unit: 'DIO22', ...(place ? { place } : {}), name, value, basis: 'page' });

  it('are listed by whole words and keep it from being done', () => {
    const status = of(foldAll(withSettings, [begun, list, a, b, ...acts]), '2005');
    expect(status.state).toBe('settings-left');
    expect(status.settings.map(({ name, new: fresh }) => `${name}: ${fresh}`)).toEqual([
      'source name: Codec 2004',
      'strip: 2004 / 2005',
    ]);
  });

  it('are done when a page shows the new value, which is no difference then', () => {
    const reads = [read('source name', 'Codec 2004', B), read('strip', '2004 / 2005')];
    for (const events of [
      [begun, list, a, b, ...acts, ...reads],
      [...reads, ...acts, b, a, begun, list],
    ]) {
      const fold = foldAll(withSettings, events);
      expect(of(fold, '2005').state).toBe('done');
      expect(fold.discrepancies().filter(({ kind }) => kind === 'setting-differs')).toEqual([]);
    }
    const late = foldAll(withSettings, reads);
    expect(late.discrepancies().filter(({ kind }) => kind === 'setting-differs')).toHaveLength(2);
    late.add([begun, list]);
    expect(late.discrepancies().filter(({ kind }) => kind === 'setting-differs')).toEqual([]);
  });

  it('go into the plan with the name', () => {
    const single = planOf([['2005', 'COD42 AES OUT', 'DIO22 I1']], [], {
      settings: [{ unit: 'DIO22', place: B, name: 'source name', value: 'Codec 2005' }],
      circuits: [{ name: 'Return', role: 'standby', hops: ['carrier line', '2005', '2006'] }],
    });
    const fold = foldAll(single, [
      begun,
      listed(['2005', '7']),
      a,
      b,
      put(A, '7', a),
      put(B, '7', b),
      off(A, '2005', a),
      off(B, '2005', b),
      read('source name', 'Codec 7', B),
    ]);
    const next = renamedPlan(single, 'rev', renamings(fold));
    expect(next.plan.settings[0]?.value).toBe('Codec 7');
    expect(next.settings).toMatchObject([{ old: 'Codec 2005', new: 'Codec 7' }]);
    expect(single.settings[0]?.value).toBe('Codec 2005');
    // The list of circuits names its cables by their numbers, and runs over the same ones as before.
    expect(next.plan.circuits).toEqual([{ name: 'Return', role: 'standby', hops: ['carrier line', '7', '2006'] }]);
    expect(circuitsOver(indexPlan(next.plan), '2005').map(({ name }) => name)).toEqual(['Return']);
    expect(JSON.stringify(renamedPlan(single, 'rev', renamings(fold)).plan)).toBe(JSON.stringify(next.plan));
  });
});

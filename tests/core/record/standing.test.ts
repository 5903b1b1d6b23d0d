// What there is one of in a station: its plan, its name, its rules. Order follows what each phone knew of; a clock that
// is months ahead owns nothing, and a time beyond all dates breaks nothing.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MAX_AT, MAX_ZONE } from '../../../src/core/record/eventLimits.ts';
import { type AuditEvent, type Payload, readEvent } from '../../../src/core/record/events.ts';
import { standingOf } from '../../../src/core/record/standing.ts';
import { differencesView, reconciliation } from '../../../src/core/report/reconciliation.ts';
import { createStation } from '../../../src/core/rules/station.ts';
import { reportToCsv } from '../../../src/files/reportCsv.ts';
import { withStanding } from '../../../src/main/standing.ts';
import { event, planOf, saw, started } from './build.ts';

const NOW = Date.UTC(2026, 5, 1, 12);
const MONTH = 30 * 24 * 3600_000;
type Whole = 'plan-adopted' | 'station-named' | 'rules-set';

function whole<K extends Whole>(kind: K, id: string, payload: Payload<K>, at: number, author = 'Ilse'): AuditEvent {
  return event(kind, payload, { id, at, author, audit: undefined as never });
}
const adopted = (id: string, after?: string[], at = NOW, author?: string) =>
  whole(
    'plan-adopted',
    id,
    { revision: `rev-${id}`, name: `Plan ${id}`, bytes: 1, ...(after ? { after } : {}) },
    at,
    author,
  );
const named = (id: string, after?: string[], at = NOW) =>
  whole('station-named', id, { name: `Name ${id}`, ...(after ? { after } : {}) }, at);

function stationOf(events: readonly AuditEvent[]) {
  const station = createStation();
  station.addTexts(events.map((one) => JSON.stringify(one)));
  return station;
}

describe('what stands for a station', () => {
  it('is what was said last by people who knew what stood, whatever a clock months ahead says', () => {
    const ahead = adopted('ahead', undefined, NOW + 6 * MONTH);
    const next = adopted('next', ['ahead']);
    expect(stationOf([ahead, next]).planInForce()?.revision).toBe('rev-next');
    expect(stationOf([next, ahead]).planInForce()?.revision).toBe('rev-next');
    expect(stationOf([named('x', undefined, NOW + MONTH), named('y', ['x'])]).name()).toBe('Name y');
  });

  it('is decided by clocks between those that did not know of each other, and both are told', () => {
    const station = stationOf([adopted('a', [], NOW, 'Ilse'), adopted('b', [], NOW + 1000, 'Mara')]);
    expect(station.planInForce()?.revision).toBe('rev-b');
    expect(station.standing().plan).toEqual({
      heads: [
        { id: 'b', by: 'Mara', at: NOW + 1000, words: 'Plan b' },
        { id: 'a', by: 'Ilse', at: NOW, words: 'Plan a' },
      ],
      disputed: true,
    });
    station.addTexts([JSON.stringify(adopted('c', ['a', 'b'], NOW - MONTH))]);
    expect(station.standing().plan).toMatchObject({ heads: [{ id: 'c' }], disputed: false });
  });

  it('is no dispute where both say the same', () => {
    const same = { revision: 'r', name: 'Plan', bytes: 1 };
    const station = stationOf([whole('plan-adopted', 'a', same, NOW), whole('plan-adopted', 'b', same, NOW + 1)]);
    expect(station.standing().plan).toMatchObject({ heads: [{ id: 'b' }, { id: 'a' }], disputed: false });
  });

  it('keeps the order of clocks for entries of earlier builds, which name none', () => {
    expect(stationOf([adopted('b', undefined, NOW + 1), adopted('a')]).planInForce()?.revision).toBe('rev-b');
  });

  it('never vanishes when forged entries name each other, themselves or all others', () => {
    const forged = [adopted('f', ['f', 'g', 'a'], NOW - MONTH), adopted('g', ['f', 'g', 'a'], NOW - MONTH)];
    const station = stationOf([adopted('a'), ...forged]);
    expect(station.planInForce()).not.toBeNull();
    expect(station.standing().plan.heads.length).toBeGreaterThan(0);
  });

  it('is one for every order of arrival', () => {
    const claim = fc.record({
      at: fc.integer({ min: 0, max: 5 }),
      after: fc.array(fc.nat({ max: 7 }), { maxLength: 4 }),
    });
    fc.assert(
      fc.property(
        fc.array(claim, { minLength: 1, maxLength: 8 }),
        fc.array(fc.nat(), { minLength: 8, maxLength: 8 }),
        (claims, keys) => {
          const made = claims.map(({ at, after }, i) => ({ id: `c${i}`, at, after: after.map((n) => `c${n}`) }));
          const mixed = [...made].sort((a, b) => keys[Number(a.id.slice(1))]! - keys[Number(b.id.slice(1))]!);
          const [one, other] = [made, mixed].map((list) => standingOf(list, ({ after }) => after));
          expect(one).toEqual(other);
          expect(one!.heads.length).toBeGreaterThan(0);
          expect(new Set(one!.chain.map(({ id }) => id)).size).toBe(made.length);
        },
      ),
    );
  });
});

describe('whoever says what stands', () => {
  const stand = (ids: string[]) => ({ heads: ids.map((id) => ({ id, by: '', at: 0, words: '' })), disputed: false });
  const standing = async () => ({ plan: stand(['p1', 'p2']), name: stand([]), rules: stand(['r']) });

  it('names all that stood for this phone, of its own kind alone', async () => {
    const plan = { revision: 'x', name: 'X', bytes: 1 };
    expect(await withStanding('plan-adopted', plan, standing)).toEqual({ ...plan, after: ['p1', 'p2'] });
    expect(await withStanding('station-named', { name: 'N' }, standing)).toEqual({ name: 'N' });
    expect(await withStanding('note', { text: 'n' }, standing)).toEqual({ text: 'n' });
  });

  it('is kept all the same where the record cannot be asked', async () => {
    const failing = () => Promise.reject(new Error('the record worker has ended'));
    expect(await withStanding('station-named', { name: 'N' }, failing)).toEqual({ name: 'N' });
  });
});

describe('a time', () => {
  const text = (at: string, zone = '60') =>
    JSON.stringify(saw('SW1 P01', '1001'))
      .replace(/"at":\d+/, `"at":${at}`)
      .replace(/"zone":-?\d+/, `"zone":${zone}`);

  it.each(['1e308', '-1', '1.5', `${MAX_AT + 1}`, '8.64e15', '1e999'])(
    'of %s is kept as a text that cannot be read',
    (at) => {
      expect(readEvent(text(at)).type).toBe('unreadable');
    },
  );

  it.each(['1081', '-1081', '1e9'])('in a zone of %s minutes is none either', (zone) => {
    expect(readEvent(text('5', zone)).type).toBe('unreadable');
  });

  it('of the last moment of 9999, and the farthest zones, are read', () => {
    expect(readEvent(text(`${MAX_AT}`, `${MAX_ZONE}`)).type).toBe('event');
    expect(readEvent(text('0', `${-MAX_ZONE}`)).type).toBe('event');
  });

  it('beyond all dates ends no report and no file, and is counted', () => {
    const plan = planOf([['1001', 'A 1', 'SW1 P01']]);
    const station = createStation();
    station.addPlan('p', plan);
    const good = [started({ plan: 'p' }), saw('SW1 P02', '1001')].map((one) => JSON.stringify(one));
    const bad = JSON.stringify(saw('SW1 P03', '1001')).replace(/"at":\d+/, '"at":1e308');
    const last = JSON.stringify(saw('SW1 P04', '1001')).replace(/"at":\d+/, `"at":${MAX_AT}`);
    expect(station.addTexts([...good, bad, last]).unreadable).toBe(1);
    const fold = station.audit('a')!.fold!;
    const report = reconciliation(fold, 'a', 'Lowmoor');
    expect(differencesView(fold, 'a').lines.length).toBeGreaterThan(0);
    expect(reportToCsv(report)).toContain('9999-12-31');
  });
});

describe('a clock that is ahead', () => {
  it('is told by author above five minutes, and drops and orders nothing', () => {
    const at = (author: string, minutes: number) =>
      event('note', { text: 'x' }, { author, at: NOW + minutes * 60_000, id: `${author}${minutes}` });
    const station = stationOf([started(), at('Ilse', 6), at('Ilse', 90), at('Mara', 5), at('Ivo', 7), at('Ivo', -900)]);
    expect(station.ahead(NOW)).toEqual([
      { author: 'Ilse', entries: 2, latest: NOW + 90 * 60_000 },
      { author: 'Ivo', entries: 1, latest: NOW + 7 * 60_000 },
    ]);
    expect(station.ahead(NOW + MONTH)).toEqual([]);
    expect(station.eventsOf('a')).toHaveLength(6);
  });
});

// A random tidy plan, and the shape in which it must come back out of any sheet. Invented; knows nothing of the reader.
import fc from 'fast-check';
import type { Plan } from '../../../src/core/plan/model.ts';

interface TidyUnit {
  label: string;
  /** A rack (R1) or a room (STA). */
  place: string;
}

interface TidyEnd {
  unit: TidyUnit;
  jack: string;
}

export interface TidyCable {
  label: string;
  from: TidyEnd;
  to: TidyEnd;
  signal: string;
  type: string;
  length: string;
  status: string;
  notes: string;
}

export interface Tidy {
  units: TidyUnit[];
  cables: TidyCable[];
  /** Whatever a habit has to choose is taken from here. */
  pick(count: number): number;
}

const LABELS = ['AIO21', 'MIO31', 'SW1', 'CON30', 'HYB41', 'PLY7', 'DIO22', 'TALA'];
const PLACES = ['R1', 'R2', 'R03', 'STA', 'STB'];
/** Each unit names its jacks in one of these ways. */
const JACKS = [(n: number) => `P${String(n).padStart(2, '0')}`, (n: number) => `IN ${n}`, (n: number) => `O${n}`];

const unitsOf = fc
  .tuple(
    fc.shuffledSubarray(LABELS, { minLength: 3, maxLength: 6 }),
    fc.array(fc.nat(PLACES.length - 1), { minLength: 6, maxLength: 6 }),
  )
  .map(([labels, places]) => labels.map((label, i): TidyUnit => ({ label, place: PLACES[places[i] ?? 0] ?? 'R1' })));

/** Numbers run on, as they do where somebody numbers a job; some begin with a zero. */
export const tidyPlan: fc.Arbitrary<Tidy> = fc
  .record({
    units: unitsOf,
    first: fc.constantFrom(1001, 101, 7),
    width: fc.constantFrom(4, 5),
    ends: fc.array(fc.tuple(fc.nat(99), fc.nat(99), fc.nat(3), fc.nat(2)), { minLength: 2, maxLength: 9 }),
    picks: fc.array(fc.nat(10_000), { minLength: 24, maxLength: 24 }),
  })
  .map(({ units, first, width, ends, picks }) => {
    const used = new Map<string, number>();
    const jackOn = (unit: TidyUnit): TidyEnd => {
      const n = (used.get(unit.label) ?? 0) + 1;
      used.set(unit.label, n);
      return { unit, jack: (JACKS[LABELS.indexOf(unit.label) % JACKS.length] ?? JACKS[0]!)(n) };
    };
    const cables = ends.map(([a, b, signal, type], i): TidyCable => {
      const from = units[a % units.length]!;
      const others = units.filter((unit) => unit !== from);
      return {
        label: String(first + i).padStart(width, '0'),
        from: jackOn(from),
        to: jackOn(others[b % others.length]!),
        signal: ['Enet', 'AES', 'Ana st', 'Enet'][signal] ?? 'Enet',
        type: ['Cat6 blue', '110R', 'quad'][type] ?? '',
        length: `${(i % 3) + 1} m`,
        status: 'in',
        notes: '',
      };
    });
    let at = 0;
    const pick = (count: number) => {
      at += 1;
      return (picks[at % picks.length] ?? 0) % count;
    };
    return { units: units.filter(({ label }) => used.has(label)), cables, pick };
  });

const SIGNALS = new Map([
  ['Enet', 'network'],
  ['AES', 'aes3'],
  ['Ana st', 'line-audio'],
]);
const toKey = (text: string) => text.toUpperCase().replaceAll(/[ /]/g, '-');
const placeOf = ({ unit, jack }: TidyEnd) => `${toKey(unit.label)}/${toKey(jack)}`;
export const isRack = (place: string) => place.startsWith('R');

export interface Shape {
  cables: {
    label: string;
    places: (string | null)[];
    signal: string | undefined;
    type: string | undefined;
    length: string | undefined;
    status: string;
  }[];
  units: { id: string; rack: string | undefined; room: string | undefined }[];
}

export function tidyToShape({ cables }: Pick<Tidy, 'cables'>): Shape {
  const units = [...new Set(cables.flatMap(({ from, to }) => [from.unit, to.unit]))];
  return {
    cables: cables.map(({ label, from, to, signal, type, length }) => ({
      label,
      places: [placeOf(from), placeOf(to)],
      signal: SIGNALS.get(signal),
      type,
      length,
      status: 'in-use',
    })),
    units: units
      .map(({ label, place }) => ({
        id: toKey(label),
        rack: isRack(place) ? place : undefined,
        room: isRack(place) ? undefined : place,
      }))
      .sort((a, b) => a.id.localeCompare(b.id)),
  };
}

export function planToShape(plan: Plan): Shape {
  return {
    cables: plan.cables.map(({ label, ends, signal, type, length, status }) => ({
      label,
      places: ends.map(({ place }) => place),
      signal,
      type,
      length,
      status,
    })),
    units: plan.units.map(({ id, rack, room }) => ({ id, rack, room })).sort((a, b) => a.id.localeCompare(b.id)),
  };
}

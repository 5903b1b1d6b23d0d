// Small tidy plans for property tests, with ids made from their names as reading a sheet makes them. Invented data.
import fc from 'fast-check';
import { jackToPlace } from '../../../../src/core/plan/identity.ts';
import { type Cable, emptyPlan, type Jack, type Plan, type Unit } from '../../../../src/core/plan/model.ts';
import { findContradictions } from '../../../../src/core/schedule/build/contradictions.ts';
import { nameToKey } from '../../../../src/core/trade/names.ts';

interface Sketch {
  units: { name: number; u: number; serial: string | undefined }[];
  cables: { number: number; a: number; b: number; circuit: string | undefined; length: string | undefined }[];
  gains: { jack: number; value: string }[];
  circuits: { name: string; role: 'main' | 'standby' | undefined; hops: string[] }[];
}

const word = fc.constantFrom('PGM 1', 'Talk', 'Return', 'Tally', 'Clock');

export const sketch: fc.Arbitrary<Sketch> = fc.record({
  units: fc.uniqueArray(
    fc.record({
      name: fc.integer({ min: 1, max: 6 }),
      u: fc.integer({ min: 1, max: 20 }),
      serial: fc.option(fc.stringMatching(/^S[0-9]{3}$/), { nil: undefined }),
    }),
    { minLength: 2, maxLength: 5, selector: ({ name }) => name },
  ),
  cables: fc.uniqueArray(
    fc.record({
      number: fc.integer({ min: 1000, max: 1020 }),
      a: fc.nat(999),
      b: fc.nat(999),
      circuit: fc.option(word, { nil: undefined }),
      length: fc.option(fc.constantFrom('2', '3', '12'), { nil: undefined }),
    }),
    { maxLength: 12, selector: ({ number }) => number },
  ),
  gains: fc.uniqueArray(fc.record({ jack: fc.nat(999), value: fc.constantFrom('30', '48') }), {
    maxLength: 3,
    selector: ({ jack }) => jack % 7,
  }),
  circuits: fc.array(
    fc.record({
      name: word,
      role: fc.constantFrom('main' as const, 'standby' as const, undefined),
      hops: fc.array(fc.integer({ min: 1000, max: 1020 }).map(String), { maxLength: 2 }),
    }),
    { maxLength: 4 },
  ),
});

const JACKS = 6;

/** No jack takes two cables: an end whose jack is taken is left out of the plan's places. */
export function sketchToPlan({ units: list, cables: rows, gains, circuits }: Sketch): Plan {
  const units = list.map(({ name, u, serial }): Unit => {
    const label = `SW${name}`;
    return {
      id: nameToKey(label),
      label,
      rack: 'R1',
      u,
      heightU: 1,
      mounted: 'front',
      faces: [],
      ...(serial === undefined ? {} : { serial }),
      implied: false,
    };
  });
  const jacks = units.flatMap((unit) =>
    Array.from({ length: JACKS }, (_, i): Jack => {
      const label = `P${String(i + 1).padStart(2, '0')}`;
      return { id: jackToPlace(unit.id, label), unit: unit.id, label, mult: false, spare: false, implied: false };
    }),
  );
  const taken = new Set<string>();
  const cables = rows.map(({ number, a, b, circuit, length }, row): Cable => {
    const ends = [a, b].map((at, i) => {
      const letter = String.fromCharCode(65 + i);
      const jack = jacks[at % jacks.length];
      if (!jack || taken.has(jack.id)) return { end: letter, place: null, unit: '', jack: '' };
      taken.add(jack.id);
      return { end: letter, place: jack.id, location: 'R1', unit: jack.unit, jack: jack.label };
    });
    return {
      id: String(number),
      label: String(number),
      ends,
      ...(circuit === undefined ? {} : { circuit }),
      ...(length === undefined ? {} : { length }),
      status: 'in-use',
      onAir: false,
      origin: { sheet: 'Cables', row: row + 2 },
    };
  });
  const at = new Map(gains.map(({ jack, value }) => [jacks[jack % jacks.length]!, value]));
  return {
    ...emptyPlan,
    origin: 'sheet',
    racks: [{ id: 'R1', label: 'R1', heightU: 42, numbering: 'bottom-up', implied: false }],
    units,
    jacks,
    cables,
    settings: [...at].map(([jack, value]) => ({ unit: jack.unit, place: jack.id, name: 'gain', value })),
    circuits: circuits.map(({ role, ...rest }) => ({ ...rest, ...(role ? { role } : {}) })),
    contradictions: findContradictions(cables, new Map(jacks.map((jack) => [jack.id, jack])), units),
  };
}

export const plan: fc.Arbitrary<Plan> = sketch.map(sketchToPlan);

/** The same plan with its rows in another order. */
export function shuffle(plan: Plan, seed: number): Plan {
  const mixed = <T>(list: readonly T[]) =>
    [...list].sort((a, b) => hash(JSON.stringify(a), seed) - hash(JSON.stringify(b), seed));
  return {
    ...plan,
    racks: mixed(plan.racks),
    units: mixed(plan.units),
    jacks: mixed(plan.jacks),
    cables: mixed(plan.cables),
    settings: mixed(plan.settings),
    circuits: mixed(plan.circuits ?? []),
  };
}

function hash(text: string, seed: number): number {
  let sum = seed | 1;
  for (const letter of text) sum = Math.imul(sum ^ letter.charCodeAt(0), 16_777_619);
  return sum;
}

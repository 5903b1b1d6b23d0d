// What became of single rows of a sheet, in a line each. It tells what is in the plan; nothing is read or decided here.
import { derived } from '../../plan/derived.ts';
import type { Cable, Circuit, Jack, Origin, Plan, Unit } from '../../plan/model.ts';

type Made = { cables: Cable[]; units: Unit[]; jacks: Jack[]; circuits: Circuit[] };

const keyOf = ({ row, sheet }: Origin) => `${row} ${sheet}`;

/** What each row made. */
const madeBy = derived((plan: Plan): ReadonlyMap<string, Made> => {
  const rows = new Map<string, Made>();
  const add = <K extends keyof Made>(
    kind: K,
    items: readonly (Made[K][number] & { origin?: Origin | undefined })[],
  ) => {
    for (const item of items) {
      if (!item.origin) continue;
      const key = keyOf(item.origin);
      const made = rows.get(key) ?? { cables: [], units: [], jacks: [], circuits: [] };
      rows.set(key, made);
      (made[kind] as (typeof item)[]).push(item);
    }
  };
  add('cables', plan.cables);
  add(
    'units',
    plan.units.filter(({ implied }) => !implied),
  );
  add('jacks', plan.jacks);
  add('circuits', plan.circuits ?? []);
  return rows;
});

/** `cable 1001: SW1 P01 to CON30 NET`; empty where the row made nothing. */
export function rowToReading(plan: Plan, sheet: string, row: number): string {
  const made = madeBy(plan).get(keyOf({ sheet, row }));
  if (!made) return '';
  const cables = made.cables.map((cable) => {
    const ends = cable.ends.map(({ unit, jack, place }) => [unit, jack].filter(Boolean).join(' ') || (place ?? 'open'));
    return `cable ${cable.label || 'without number'}: ${ends.join(' to ') || 'no end'}`;
  });
  const units = made.units.map((unit) => {
    const rack = plan.racks.find(({ id }) => id === unit.rack)?.label;
    const where = rack ? `rack ${rack}${unit.u === undefined ? '' : ` U${unit.u}`}` : (unit.room ?? 'no place');
    const jacks = plan.jacks.filter((jack) => jack.unit === unit.id).length;
    return `unit ${unit.label}: ${where}, ${jacks} ${jacks === 1 ? 'jack' : 'jacks'}`;
  });
  const labels = new Map(made.jacks.length === 0 ? [] : plan.units.map(({ id, label }) => [id, label]));
  const jacks = made.jacks.map(({ unit, label }) => `jack ${labels.get(unit) ?? unit} ${label}`);
  const circuits = made.circuits.map(({ name, hops }) => `circuit ${name}: ${hops.join(', ') || 'no hops'}`);
  return [...cables, ...units, ...jacks, ...circuits].join('; ');
}

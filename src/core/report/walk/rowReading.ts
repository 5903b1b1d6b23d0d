// What became of single rows of a sheet, in a line each. It tells what is in the plan; nothing is read or decided here.
import type { Plan } from '../../plan/model.ts';

/** `cable 1001: SW1 P01 to CON30 NET`; empty where the row made nothing. */
export function rowToReading(plan: Plan, sheet: string, row: number): string {
  const here = (origin: { sheet: string; row: number } | undefined) => origin?.sheet === sheet && origin.row === row;
  const cables = plan.cables
    .filter((cable) => here(cable.origin))
    .map((cable) => {
      const ends = cable.ends.map(
        ({ unit, jack, place }) => [unit, jack].filter(Boolean).join(' ') || (place ?? 'open'),
      );
      return `cable ${cable.label || 'without number'}: ${ends.join(' to ') || 'no end'}`;
    });
  const units = plan.units
    .filter((unit) => !unit.implied && here(unit.origin))
    .map((unit) => {
      const rack = plan.racks.find(({ id }) => id === unit.rack)?.label;
      const where = rack ? `rack ${rack}${unit.u === undefined ? '' : ` U${unit.u}`}` : (unit.room ?? 'no place');
      const jacks = plan.jacks.filter((jack) => jack.unit === unit.id).length;
      return `unit ${unit.label}: ${where}, ${jacks} ${jacks === 1 ? 'jack' : 'jacks'}`;
    });
  return [...cables, ...units].join('; ');
}

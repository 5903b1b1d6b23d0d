// Mistakes that are not in the cables: a column of the sheet that slipped by rows, and the auditor who missed a jack.
import { type PlaceId, unitOf } from '../plan/identity.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import type { Candidate } from './cause.ts';
import { type Displacement, type Floor, isAsPlanned } from './floor.ts';

const LEAST_SLIPPED = 4;

/** The row of the sheet that a wrong jack belongs to, and the end; without a home it is the end that is left blank. */
export function sheetRowOf({ index }: FoldView, one: Discrepancy) {
  const cable = index.cables.get(one.cable ?? '');
  if (one.kind !== 'wrong-jack' || !cable?.origin) return null;
  const home = one.home ?? null;
  const ends = cable.ends.filter(({ place }) => place === home);
  return ends.length === 1 ? { cable, ...cable.origin, end: ends[0]!.end, home } : null;
}

/** A label elsewhere than its row of the sheet has it. */
interface Step {
  id: string;
  label: string;
  found: string;
  /** Null where the row names no jack for this end. */
  home: PlaceId | null;
  sheet: string;
  end: string;
  row: number;
  /** To the row that has its end where the label was found; null where none has. */
  offset: number | null;
}

/**
 * Labels that stand where the sheet's row before or after has its end, along consecutive rows and over more than one
 * unit: within one unit it looks like a shifted row, and that is told there. At one end of the run the slip leaves a
 * row without a jack, at the other a jack without a row.
 */
export function sheetCandidates(floor: Floor): Candidate[] {
  const bySheet = new Map<string, Step[]>();
  for (const step of stepsOf(floor)) {
    const key = `${step.sheet}\n${step.end}`;
    const list = bySheet.get(key);
    if (list) list.push(step);
    else bySheet.set(key, [step]);
  }
  return [...bySheet.values()].flatMap((steps) => {
    const byRow = new Map(steps.map((step) => [step.row, step]));
    const runs: Step[][] = [];
    for (const step of steps.sort((a, b) => a.row - b.row)) {
      if (step.offset === null || step.offset === 0) continue;
      const last = runs.at(-1)?.at(-1);
      if (last && last.offset === step.offset && step.row - last.row === 1) runs.at(-1)!.push(step);
      else runs.push([step]);
    }
    return runs.flatMap((run): Candidate[] => {
      const offset = run[0]!.offset!;
      const beyond = byRow.get(offset > 0 ? run.at(-1)!.row + 1 : run[0]!.row - 1);
      const isBeyond = beyond?.offset === null && !floor.view.index.endsAt.has(beyond.found);
      const whole = isBeyond ? [...run, beyond].sort((a, b) => a.row - b.row) : run;
      const units = new Set(whole.flatMap(({ home }) => (home === null ? [] : [unitOf(home)])));
      if (whole.length < LEAST_SLIPPED || units.size < 2) return [];
      return [
        {
          kind: 'sheet-slipped',
          certainty: 'probable',
          severity: 'record',
          places: whole.map(({ found }) => found),
          labels: whole.map(({ label }) => label),
          covers: new Set(whole.map(({ id }) => id)),
          against: [],
          predicts: [],
          nextLook: null,
          rows: [whole[0]!.row, whole.at(-1)!.row],
          offset,
        },
      ];
    });
  });
}

function stepsOf({ view, differences }: Floor): Step[] {
  const { index } = view;
  return [...differences.values()].flatMap((one): Step[] => {
    const at = sheetRowOf(view, one);
    const [found] = one.places;
    if (!at || found === undefined) return [];
    const { cable, sheet, end, row, home } = at;
    const other = index.endsAt.get(found)?.[0];
    const offset = other?.cable.origin?.sheet === sheet && other.end.end === end ? other.cable.origin.row - row : null;
    return [{ id: one.id, label: one.found ?? cable.label, found, home, sheet, end, row, offset }];
  });
}

/**
 * Could the shift be the auditor's? Only if one person said all of it in one go, in the order of the jacks, up to the
 * last thing they said there, and the jack that would be empty in a real shift was not looked at.
 */
export function slipOf(floor: Floor, shift: Candidate): Candidate | null {
  const { view } = floor;
  const run = floor.displacements.filter(({ id }) => shift.covers.has(id));
  const looks = run.map(({ found }) => view.stateAt(found).looks);
  if (looks.some((at) => at.length !== 1 || at[0]!.basis !== 'seen')) return null;
  const said = looks.map(([look]) => look!);
  const people = new Set(said.map(({ author }) => author));
  const unseen = shift.places.filter((place) => view.stateAt(place).type === 'unseen');
  if (people.size !== 1 || unseen.length === 0) return null;
  const inOrder = [...said].sort((a, b) => a.at - b.at);
  const [first, last] = [inOrder[0]!, inOrder.at(-1)!];
  const between = (at: number) => at > first.at && at < last.at;
  const broken = neighbours(view, run).some((place) => {
    const [look] = view.stateAt(place).looks;
    return look !== undefined && between(look.at) && isAsPlanned(view, place);
  });
  if (broken) return null;
  return { ...shift, kind: 'hand-slipped', certainty: 'possible', severity: 'undecided', against: [] };
}

function neighbours(view: Floor['view'], run: readonly Displacement[]): PlaceId[] {
  const units = new Set(run.map(({ home }) => unitOf(home)));
  return [...units].flatMap((unit) => (view.index.jacksOf.get(unit) ?? []).map(({ id }) => id));
}

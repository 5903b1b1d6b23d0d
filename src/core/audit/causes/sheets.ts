// Mistakes that are not in the cables: a column of the sheet that slipped by rows, and the auditor who missed a jack.
import type { Candidate } from './cause.ts';
import { type Arrow, type Floor, isAsPlanned } from './floor.ts';

const LEAST_SLIPPED = 4;

/**
 * Labels that stand where the sheet's row before or after has its end, along consecutive rows and over more than one
 * unit: within one unit it looks like a shifted row, and that is told there.
 */
export function sheetCandidates(floor: Floor): Candidate[] {
  const { index } = floor.view;
  const inSheet = new Map<string, { sheet: string; row: number; end: string }>();
  for (const arrow of floor.arrows) {
    const cable = index.cables.get(arrow.cable);
    const end = cable?.ends.find(({ place }) => place === arrow.home)?.end;
    if (cable?.origin && end) inSheet.set(arrow.id, { ...cable.origin, end });
  }
  const steps = floor.arrows.flatMap((arrow) => {
    const from = inSheet.get(arrow.id);
    const other = index.endsAt.get(arrow.found)?.[0];
    if (!from || other?.cable.origin?.sheet !== from.sheet || other.end.end !== from.end) return [];
    return [{ arrow, row: from.row, offset: other.cable.origin.row - from.row, key: `${from.sheet}\n${from.end}` }];
  });
  const groups = new Map<string, typeof steps>();
  for (const step of steps) {
    const key = `${step.key}\n${step.offset}`;
    groups.set(key, [...(groups.get(key) ?? []), step]);
  }
  return [...groups.values()].flatMap((group) => {
    const runs: (typeof steps)[] = [];
    for (const step of group.sort((a, b) => a.row - b.row)) {
      const run = runs.at(-1);
      if (run && step.row - run.at(-1)!.row === 1) run.push(step);
      else runs.push([step]);
    }
    return runs.flatMap((run): Candidate[] => {
      const units = new Set(run.map(({ arrow }) => arrow.home.slice(0, arrow.home.lastIndexOf('/'))));
      if (run.length < LEAST_SLIPPED || units.size < 2 || run[0]!.offset === 0) return [];
      return [
        {
          kind: 'sheet-slipped',
          certainty: 'probable',
          severity: 'record',
          places: run.map(({ arrow }) => arrow.found),
          labels: run.map(({ arrow }) => arrow.label),
          covers: new Set(run.map(({ arrow }) => arrow.id)),
          against: [],
          predicts: [],
          nextLook: null,
          detail: { rows: `${run[0]!.row} to ${run.at(-1)!.row}`, offset: String(run[0]!.offset) },
        },
      ];
    });
  });
}

/**
 * Could the shift be the auditor's? Only if one person said all of it in one go, in the order of the jacks, up to the
 * last thing they said there, and the jack that would be empty in a real shift was not looked at.
 */
export function slipOf(floor: Floor, shift: Candidate): Candidate | null {
  const { view } = floor;
  const run = floor.arrows.filter(({ id }) => shift.covers.has(id));
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

function neighbours(view: Floor['view'], run: readonly Arrow[]): string[] {
  const units = new Set(run.map(({ home }) => home.slice(0, home.lastIndexOf('/'))));
  return [...units].flatMap((unit) => (view.index.jacksOf.get(unit) ?? []).map(({ id }) => id));
}

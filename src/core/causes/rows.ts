// Patterns along one row of jacks: shifted, mirrored, odd and even exchanged, groups exchanged. Each is one mistake of
// counting, so a jack between that is as planned speaks against it.
import { unitOf } from '../plan/identity.ts';
import type { Candidate, Prediction, Story } from './cause.ts';
import { reach } from './cycles.ts';
import { coverable, type Displacement, type Floor, isAsPlanned, isSeenEmpty, positionOf, rowKey } from './floor.ts';

interface Step extends Displacement {
  from: number;
  to: number;
}

/** Fewer equal steps than this are neighbours by chance. */
const LEAST_SHIFTED = 3;
const LEAST_MIRRORED = 4;
const LEAST_EXCHANGED = 4;
const COVERED = new Set(['wrong-jack', 'empty-jack', 'not-installed']);

export function rowCandidates(floor: Floor): Candidate[] {
  const rows = new Map<string, Step[]>();
  for (const displacement of floor.displacements) {
    const [home, found] = [positionOf(displacement.home), positionOf(displacement.found)];
    if (!home || !found || rowKey(home) !== rowKey(found)) continue;
    const list = rows.get(rowKey(home)) ?? [];
    rows.set(rowKey(home), list);
    list.push({ ...displacement, from: home.n, to: found.n });
  }
  return [...rows.values()].flatMap((steps) => {
    if (steps.length < LEAST_SHIFTED) return [];
    const row = rowOf(floor, steps);
    return [...shifted(floor, row, steps), ...mirrored(floor, row, steps), ...exchanged(floor, row, steps)];
  });
}

interface Row {
  /** Place of each number of the row that the plan or a description knows. */
  placeAt: Map<number, string>;
  /** Numbers where the planned label was read. */
  right: Set<number>;
  numbers: number[];
}

function rowOf(floor: Floor, steps: readonly Step[]): Row {
  const at = positionOf(steps[0]!.home)!;
  const { view } = floor;
  const placeAt = new Map<number, string>();
  for (const jack of view.index.jacksOf.get(at.unit) ?? []) {
    const position = positionOf(jack.id);
    if (position && rowKey(position) === rowKey(at)) placeAt.set(position.n, jack.id);
  }
  for (const { home, found, from, to } of steps) placeAt.set(from, home).set(to, found);
  const numbers = [...placeAt.keys()].sort((a, b) => a - b);
  return { placeAt, numbers, right: new Set(numbers.filter((n) => isAsPlanned(view, placeAt.get(n)!))) };
}

/** Neighbours with one offset; broken where a jack between bears its own label. */
function shifted(floor: Floor, row: Row, steps: readonly Step[]): Candidate[] {
  const byOffset = new Map<number, Step[]>();
  for (const step of steps) {
    const list = byOffset.get(step.to - step.from) ?? [];
    byOffset.set(step.to - step.from, list);
    list.push(step);
  }
  return [...byOffset].flatMap(([offset, all]) => {
    const runs: Step[][] = [];
    for (const step of all.sort((a, b) => a.from - b.from)) {
      const run = runs.at(-1);
      const last = run?.at(-1);
      if (run && last && !numbersBetween(row, last.from, step.from).some((n) => row.right.has(n))) run.push(step);
      else runs.push([step]);
    }
    return runs.filter((run) => run.length >= LEAST_SHIFTED).map((run) => shiftedRun(floor, row, offset, run));
  });
}

function shiftedRun(floor: Floor, row: Row, offset: number, run: readonly Step[]): Candidate {
  const { view } = floor;
  const [first, last] = [run[0]!.from, run.at(-1)!.from];
  const taken = new Set(run.map(({ to }) => to));
  const vacated = run.filter(({ from }) => !taken.has(from)).map(({ from }) => row.placeAt.get(from)!);
  const predicts: Prediction[] = vacated
    .filter((place) => view.stateAt(place).type === 'unseen')
    .map((place) => ({ place, label: null }));
  const moved = new Set(run.map(({ from }) => from));
  for (const n of numbersBetween(row, first, last)) {
    const [home, target] = [row.placeAt.get(n), row.placeAt.get(n + offset)];
    const planned = home && view.index.endsAt.get(home)?.[0]?.cable;
    if (!moved.has(n) && planned && target && view.stateAt(target).type === 'unseen') {
      predicts.push({ place: target, label: planned.label });
    }
  }
  const places = run.map(({ found }) => found);
  const holds = vacated.length > 0 && vacated.every((place) => isSeenEmpty(view, place));
  return {
    kind: 'row-shifted',
    certainty: holds ? 'probable' : 'possible',
    // The jacks that it leaves were seen free: plugs have moved, not labels.
    ...(holds ? { severity: reach(floor, run) } : {}),
    places: [...places, ...vacated],
    labels: run.map(({ label }) => label),
    covers: new Set([...run.map(({ id }) => id), ...coverable(floor, vacated, COVERED)]),
    against: vacated.filter((place) =>
      ['label', 'unlabelled', 'plugged', 'illegible'].includes(view.stateAt(place).type),
    ),
    predicts,
    nextLook: null,
    offset,
  };
}

/** First and last exchanged, second and last but one, and so on: the row was counted from the other side. */
function mirrored(floor: Floor, row: Row, steps: readonly Step[]): Candidate[] {
  const bySum = new Map<number, Step[]>();
  for (const step of steps) {
    const list = bySum.get(step.from + step.to) ?? [];
    bySum.set(step.from + step.to, list);
    list.push(step);
  }
  return [...bySum].flatMap(([sum, fit]) => {
    if (fit.length < LEAST_MIRRORED) return [];
    const ends = fit.flatMap(({ from, to }) => [from, to]);
    const [low, high] = [Math.min(...ends), Math.max(...ends)];
    const within = row.numbers.filter((n) => n >= low && n <= high);
    const against = within.filter((n) => row.right.has(n) && n * 2 !== sum);
    // A mirrored row is mirrored along all of it: pairs that cross the middle of a short stretch are a crossing each.
    if (against.length > 0 || high + low !== sum || high - low < LEAST_MIRRORED - 1) return [];
    return [pattern(floor, row, { kind: 'row-mirrored', unit: unitOf(fit[0]!.home) }, fit, within, (n) => sum - n)];
  });
}

/** Blocks of `size` that changed sides: size 1 is odd against even. */
function exchanged(floor: Floor, row: Row, steps: readonly Step[]): Candidate[] {
  const sizes = new Set(steps.map(({ from, to }) => Math.abs(to - from)));
  return [...sizes].flatMap((size) => {
    const fit = steps.filter(({ from, to }) => Math.abs(to - from) === size);
    if (fit.length < LEAST_EXCHANGED) return [];
    return stretches(fit, size).flatMap((part) => {
      const start = Math.min(...part.map(({ from, to }) => Math.min(from, to)));
      const end = Math.max(...part.map(({ from, to }) => Math.max(from, to)));
      const partner = (n: number) => (Math.floor((n - start) / size) % 2 === 0 ? n + size : n - size);
      const ups = part.filter(({ from, to }) => to > from).length;
      const fits = part.every(({ from, to }) => partner(from) === to);
      const within = row.numbers.filter((n) => n >= start && n <= end);
      const wrong = within.some((n) => row.right.has(n));
      if (!fits || wrong || ups === 0 || ups === part.length || part.length < LEAST_EXCHANGED) return [];
      // Two crossed pairs beside each other are that; three in a row, or all there are, are the row.
      const all = within.length === row.numbers.length;
      if (size === 1 && part.length < 6 && !all) return [];
      const unit = unitOf(part[0]!.home);
      const story: Story =
        size === 1 ? { kind: 'odd-even-exchanged', unit } : { kind: 'groups-exchanged', of: { type: 'jacks', unit } };
      return [pattern(floor, row, story, part, within, partner)];
    });
  });
}

/** Splits steps where more than two blocks lie between them. */
function stretches(steps: readonly Step[], size: number): Step[][] {
  const parts: Step[][] = [];
  for (const step of [...steps].sort((a, b) => Math.min(a.from, a.to) - Math.min(b.from, b.to))) {
    const part = parts.at(-1);
    const last = part ? Math.max(...part.map(({ from, to }) => Math.max(from, to))) : 0;
    if (part && Math.min(step.from, step.to) - last <= size * 2) part.push(step);
    else parts.push([step]);
  }
  return parts;
}

function pattern(
  floor: Floor,
  row: Row,
  story: Story,
  fit: readonly Step[],
  within: readonly number[],
  partner: (n: number) => number,
): Candidate {
  const { view } = floor;
  const predicts = within.flatMap((n): Prediction[] => {
    const [place, other] = [row.placeAt.get(n)!, row.placeAt.get(partner(n))];
    const planned = other && view.index.endsAt.get(other)?.[0]?.cable;
    return view.stateAt(place).type === 'unseen' && planned ? [{ place, label: planned.label }] : [];
  });
  const expected = within.filter((n) => view.index.endsAt.has(row.placeAt.get(n)!)).length;
  return {
    ...story,
    certainty: fit.length * 2 >= expected ? 'probable' : 'possible',
    places: fit.map(({ found }) => found),
    labels: fit.map(({ label }) => label),
    covers: new Set(fit.map(({ id }) => id)),
    against: [],
    predicts,
    nextLook: null,
  };
}

function numbersBetween(row: Row, from: number, to: number): number[] {
  return row.numbers.filter((n) => n > from && n < to);
}

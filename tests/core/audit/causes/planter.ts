// Plants mistakes in a made-up facility and walks it: what was planted, and what a person would have seen. Everything
// comes from one seed. Invented data.
import { createRandom } from '../../../../src/cli/benchFacility.ts';
import type { CauseKind } from '../../../../src/core/audit/causes/cause.ts';
import type { AuditEvent } from '../../../../src/core/audit/events.ts';
import type { Plan } from '../../../../src/core/plan/model.ts';
import { at, type CableRow, planOf, saw, started, statement } from '../build.ts';

/** One planted mistake: its kind as it can be told from labels, and the labels concerned. */
export interface Planted {
  kind: CauseKind;
  labels: string[];
}

export interface PlantedFacility {
  plan: Plan;
  planted: Planted[];
  events: AuditEvent[];
}

export const PLANTABLE = [
  'crossed-or-labels-exchanged',
  'labels-exchanged',
  'chain-moved',
  'rotated',
  'row-shifted',
  'row-mirrored',
  'odd-even-exchanged',
  'groups-exchanged',
  'units-exchanged',
  'old-cable-left',
  'hop-not-on-sheet',
  'half-renamed',
] as const satisfies readonly CauseKind[];
export type Plantable = (typeof PLANTABLE)[number];

const pad = (n: number) => String(n).padStart(2, '0');

export interface Wish {
  cables: number;
  seed: number;
  /** Kinds to plant, each `times` times, in frames of their own. */
  kinds: readonly Plantable[];
  times: number;
  /** Share of the places that nobody looks at. */
  unseen?: number;
  /** Share of the readings that are wrong: a label nobody planned. */
  misread?: number;
}

/** Frames of 24 jacks of which 20 are planned; the other ends are jacks of desks, in another order. */
export function plant({ cables, seed, kinds, times, unseen = 0, misread = 0 }: Wish): PlantedFacility {
  const random = createRandom(seed);
  const pick = (n: number) => Math.floor(random() * n);
  const planned = 20;
  const frames = Math.ceil(cables / planned);
  const far = Array.from({ length: frames * planned }, (_, i) => i).sort(() => random() - 0.5);
  const rows: CableRow[] = [];
  for (let i = 0; i < frames * planned; i++) {
    const desk = far[i]!;
    rows.push([
      String(10_000 + i),
      `DESK${Math.floor(desk / planned)} O${pad((desk % planned) + 1)}`,
      `FR${Math.floor(i / planned)} P${pad((i % planned) + 1)}`,
    ]);
  }
  // Spare jacks at the end of each frame.
  const spare = Array.from({ length: frames }, (_, f) =>
    [21, 22, 23, 24].map((n) => ({ at: `FR${f} P${pad(n)}` })),
  ).flat();
  const plan = planOf(rows, spare);
  /** Words of a place to the label that stands there; null is empty. */
  const floor = new Map<string, string | null>();
  for (const [label, from, to] of rows) floor.set(from, label).set(to, label);
  for (const { at: words } of spare) floor.set(words, null);
  const loose: [string, string][] = [];
  const followed: AuditEvent[] = [];
  const planted: Planted[] = [];
  const free = Array.from({ length: frames }, (_, i) => i).sort(() => random() - 0.5);
  const jack = (frame: number, n: number) => `FR${frame} P${pad(n)}`;
  const labelAt = (words: string) => floor.get(words)!;
  const permute = (places: string[], order: number[]) => {
    const labels = places.map(labelAt);
    order.forEach((from, i) => {
      floor.set(places[i]!, labels[from]!);
    });
  };
  const rowOf = (label: string) => rows[Number(label) - 10_000]!;

  const makers: Record<Plantable, () => Planted | null> = {
    'crossed-or-labels-exchanged': () => {
      const frame = free.pop()!;
      const places = [1 + pick(9), 11 + pick(9)].map((n) => jack(frame, n));
      const labels = places.map(labelAt);
      permute(places, [1, 0]);
      return { kind: 'crossed-or-labels-exchanged', labels };
    },
    'labels-exchanged': () => {
      const frame = free.pop()!;
      const places = [1 + pick(9), 11 + pick(9)].map((n) => jack(frame, n));
      const labels = places.map(labelAt);
      permute(places, [1, 0]);
      permute(
        labels.map((label) => rowOf(label)[1]),
        [1, 0],
      );
      return { kind: 'labels-exchanged', labels };
    },
    'chain-moved': () => {
      const frame = free.pop()!;
      const places = [2, 7, 13].map((n) => jack(frame, n + pick(3)));
      const labels = places.map(labelAt);
      floor.set(jack(frame, 22), labels[2]!);
      floor.set(places[2]!, labels[1]!).set(places[1]!, labels[0]!).set(places[0]!, null);
      return { kind: 'chain-moved', labels };
    },
    rotated: () => {
      const frame = free.pop()!;
      const size = 3 + pick(3);
      const places = [1, 5, 8, 14, 19].slice(0, size).map((n) => jack(frame, n));
      const labels = places.map(labelAt);
      permute(
        places,
        [...places.keys()].map((i) => (i + 1) % size),
      );
      return { kind: 'rotated', labels };
    },
    'row-shifted': () => {
      const frame = free.pop()!;
      const [from, by] = [2 + pick(10), 1 + pick(3)];
      const moved = Array.from({ length: planned - from + 1 }, (_, i) => from + i);
      const labels = moved.map((n) => labelAt(jack(frame, n))!);
      for (const n of moved) floor.set(jack(frame, n), null);
      moved.forEach((n, i) => {
        floor.set(jack(frame, n + by), labels[i]!);
      });
      return { kind: 'row-shifted', labels };
    },
    'row-mirrored': () => {
      const frame = free.pop()!;
      const places = Array.from({ length: planned }, (_, i) => jack(frame, i + 1));
      const labels = places.map(labelAt) as string[];
      permute(places, [...places.keys()].reverse());
      return { kind: 'row-mirrored', labels };
    },
    'odd-even-exchanged': () => {
      const frame = free.pop()!;
      const pairs = 3 + pick(7);
      const places = Array.from({ length: pairs * 2 }, (_, i) => jack(frame, i + 1));
      const labels = places.map(labelAt) as string[];
      permute(
        places,
        [...places.keys()].map((i) => i ^ 1),
      );
      return { kind: 'odd-even-exchanged', labels };
    },
    'groups-exchanged': () => {
      const frame = free.pop()!;
      const size = 2 + pick(7);
      const start = 1 + pick(planned - 2 * size + 1);
      const places = Array.from({ length: size * 2 }, (_, i) => jack(frame, start + i));
      const labels = places.map(labelAt) as string[];
      permute(
        places,
        [...places.keys()].map((i) => (i + size) % (2 * size)),
      );
      return { kind: 'groups-exchanged', labels };
    },
    'units-exchanged': () => {
      const [a, b] = [free.pop(), free.pop()];
      if (a === undefined || b === undefined) return null;
      const labels: string[] = [];
      for (let n = 1; n <= planned; n++) {
        const both = [jack(a, n), jack(b, n)];
        labels.push(...(both.map(labelAt) as string[]));
        permute(both, [1, 0]);
      }
      return { kind: 'units-exchanged', labels };
    },
    'old-cable-left': () => {
      const label = labelAt(jack(free.pop()!, 1 + pick(20)))!;
      loose.push([`loose: coil behind rack ${label}`, label]);
      return { kind: 'old-cable-left', labels: [label] };
    },
    'hop-not-on-sheet': () => {
      const frame = free.pop()!;
      const count = 1 + pick(6);
      const labels = Array.from({ length: count }, (_, i) => {
        const near = jack(frame, 1 + i);
        const label = labelAt(near)!;
        const [, distant] = rowOf(label);
        floor.delete(near);
        floor.delete(distant);
        const [here, there] = [`HOPA${frame} ${i + 1}`, `HOPB${frame} ${i + 1}`];
        followed.push(
          statement([near], 'unlabelled', { basis: 'followed', joinedTo: at(`${here} front`) }),
          saw(`${here} rear`, label),
          saw(`${there} rear`, label),
          statement([distant], 'unlabelled', { basis: 'followed', joinedTo: at(`${there} front`) }),
        );
        return label;
      });
      return { kind: 'hop-not-on-sheet', labels };
    },
    'half-renamed': () => {
      const frame = free.pop()!;
      // Another beginning each time: one rule is one renaming.
      const letters = `N${frame}-`;
      const labels = Array.from({ length: 3 + pick(8) }, (_, i) => {
        const place = jack(frame, 1 + i);
        const renamed = `${letters}${labelAt(place)}`;
        floor.set(place, renamed);
        return renamed;
      });
      return { kind: 'half-renamed', labels };
    },
  };
  for (let i = 0; i < times; i++) {
    for (const kind of kinds) {
      if (free.length === 0) break;
      const one = makers[kind]();
      if (one) planted.push({ ...one, labels: [...one.labels].sort() });
    }
  }
  let strange = 0;
  const events: AuditEvent[] = [started(), ...followed];
  for (const [words, label] of floor) {
    if (random() < unseen) continue;
    if (label === null) events.push(statement([words], 'empty'));
    else if (random() < misread) events.push(saw(words, `X${strange++}`));
    else events.push(saw(words, label));
  }
  for (const [words, label] of loose) events.push(saw(words, label));
  return { plan, planted, events };
}

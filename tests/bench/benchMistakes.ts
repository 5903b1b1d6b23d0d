// One maker for each kind of cause: it changes the floor, or the plan, as that mistake would, in a frame of its own, and
// says by which labels it should be told. It reads no recogniser.
//
// Limits: Planted mistakes stand in frames of their own; two mistakes in one row of jacks are not planted.
import { CAUSE_KINDS, type CauseKind } from '../../src/core/causes/cause.ts';
import { jackToPlace, looseToPlace } from '../../src/core/plan/identity.ts';
import { type Ground, jack, PLANNED } from './benchGround.ts';

/** One planted mistake: its kind as it can be told from what is seen, and what it concerns. */
export interface Planted {
  kind: CauseKind;
  /** Labels, or places where there are none. */
  about: string[];
}

/** All but a person's own words. */
export type Plantable = Exclude<CauseKind, 'other'>;
export const PLANTABLE = CAUSE_KINDS.filter((kind): kind is Plantable => kind !== 'other');

/** Labels or places concerned; null where the facility has no room left for it. */
type Maker = (ground: Ground, frame: number) => string[] | null;

const labelAt = ({ floor }: Ground, place: string) => floor.get(place)!;
const jacksOf = (frame: number, numbers: readonly number[]) => numbers.map((n) => jack(frame, n));
const upTo = (n: number) => Array.from({ length: n }, (_, i) => i + 1);

/** Puts at each place what stood at the place of this number in the list. */
function permute(ground: Ground, places: readonly string[], from: (i: number) => number): string[] {
  const labels = places.map((place) => labelAt(ground, place));
  places.forEach((place, i) => {
    ground.floor.set(place, labels[from(i)]!);
  });
  return labels;
}

/** Gives a cable another far end, in the plan and on the floor. */
function replug(ground: Ground, label: string, place: string): void {
  const row = ground.rowOf(label);
  ground.floor.delete(row.ends[0]!);
  ground.floor.set(place, label);
  row.ends[0] = place;
}

function twoApart(ground: Ground, frame: number): string[] {
  return jacksOf(frame, [1 + ground.pick(9), 11 + ground.pick(9)]);
}

const makers: Record<Plantable, Maker> = {
  'crossed-or-labels-exchanged': (ground, frame) => permute(ground, twoApart(ground, frame), (i) => 1 - i),
  crossed(ground, frame) {
    const places = twoApart(ground, frame);
    const labels = permute(ground, places, (i) => 1 - i);
    ground.followed.set(places[0]!, ground.rowOf(labels[1]!).ends[0]!);
    return labels;
  },
  'labels-exchanged'(ground, frame) {
    const labels = permute(ground, twoApart(ground, frame), (i) => 1 - i);
    const far = labels.map((label) => ground.rowOf(label).ends[0]!);
    permute(ground, far, (i) => 1 - i);
    return labels;
  },
  'chain-moved'(ground, frame) {
    const numbers = [2, 7, 13].map((n) => n + ground.pick(3));
    const places = jacksOf(frame, [...numbers, PLANNED + 2]);
    return permute(ground, places, (i) => (i + 3) % 4).slice(0, 3);
  },
  rotated(ground, frame) {
    const size = 3 + ground.pick(3);
    return permute(ground, jacksOf(frame, [1, 5, 8, 14, 19].slice(0, size)), (i) => (i + 1) % size);
  },
  'row-shifted'(ground, frame) {
    const [from, by] = [2 + ground.pick(10), 1 + ground.pick(3)];
    const moved = upTo(PLANNED).slice(from - 1);
    const labels = moved.map((n) => labelAt(ground, jack(frame, n))!);
    for (const n of moved) ground.floor.set(jack(frame, n), null);
    moved.forEach((n, i) => {
      ground.floor.set(jack(frame, n + by), labels[i]!);
    });
    return labels;
  },
  'row-mirrored': (ground, frame) => permute(ground, jacksOf(frame, upTo(PLANNED)), (i) => PLANNED - 1 - i),
  'odd-even-exchanged': (ground, frame) =>
    permute(ground, jacksOf(frame, upTo(2 * (3 + ground.pick(7)))), (i) => i ^ 1),
  'groups-exchanged'(ground, frame) {
    const size = 2 + ground.pick(7);
    const start = 1 + ground.pick(PLANNED - 2 * size + 1);
    const places = jacksOf(
      frame,
      upTo(size * 2).map((n) => start + n - 1),
    );
    return permute(ground, places, (i) => (i + size) % (2 * size));
  },
  'unit-moved'(ground, frame) {
    ground.floor.set(`${ground.slotOf(frame).split('/')[0]}/U${30 + (frame % 8)}`, `FR${frame}`);
    return [`FR${frame}`];
  },
  'unit-replaced'(ground, frame) {
    ground.floor.set(ground.slotOf(frame), `LOAN${frame}`);
    return [`LOAN${frame}`];
  },
  'units-exchanged'(ground, a) {
    const b = ground.frame();
    if (b === null) return null;
    return upTo(PLANNED).flatMap((n) => permute(ground, [jack(a, n), jack(b, n)], (i) => 1 - i));
  },
  'addresses-exchanged'(ground, a) {
    const b = ground.frame();
    if (b === null) return null;
    const addressOf = (frame: number) => `${frame < 250 ? '192.0.2' : '198.51.100'}.${(frame % 250) + 1}`;
    for (const [frame, other] of [
      [a, b],
      [b, a],
    ] as const) {
      const setting = { unit: `FR${frame}`, name: 'address' };
      ground.settings.push({ ...setting, value: addressOf(frame) });
      ground.read.push({ ...setting, value: addressOf(other), basis: 'page' });
    }
    return [addressOf(a), addressOf(b)];
  },
  'shared-part': (ground, frame) =>
    jacksOf(frame, upTo(2 + ground.pick(5))).map((place) => {
      const label = labelAt(ground, place)!;
      ground.rowOf(label).more.notes = `tail T${frame}`;
      ground.facts.set(place, { leg: 'left' });
      ground.floor.set(place, `${label}-R`);
      return label;
    }),
  'hop-not-on-sheet': (ground, frame) =>
    upTo(1 + ground.pick(6)).map((n) => {
      const near = jack(frame, n);
      const label = labelAt(ground, near)!;
      const distant = ground.rowOf(label).ends[0]!;
      const hole = (panel: string, side: string) => jackToPlace(`HOP${panel}${frame}`, `${n} ${side}`);
      ground.floor.set(near, '').set(distant, '');
      ground.followed.set(near, hole('A', 'front')).set(distant, hole('B', 'front'));
      ground.floor.set(hole('A', 'rear'), label).set(hole('B', 'rear'), label);
      return label;
    }),
  'normal-bypassed'(ground, frame) {
    const hole = (n: number, side: string) => jackToPlace(`BAY${frame}`, `J${n} ${side}`);
    for (const n of [1, 7]) replug(ground, labelAt(ground, jack(frame, n))!, hole(n, 'rear'));
    const fronts = [1, 7].map((n) => hole(n, 'front'));
    for (const place of fronts) ground.floor.set(place, '');
    ground.followed.set(fronts[0]!, fronts[1]!);
    return fronts;
  },
  'group-reversed': (ground, frame) =>
    upTo(2 + ground.pick(6)).map((n) => {
      const label = labelAt(ground, jack(frame, n))!;
      const distant = jackToPlace(`BOX${frame}`, `${n}`);
      replug(ground, label, distant);
      ground.floor.set(jack(frame, n), `${label}-A`).set(distant, `${label}-B`);
      return label;
    }),
  'sheet-slipped'(ground, frame) {
    // The last of one frame and the first of the next one: from a row on, each names the jack of the row before.
    const [before, after] = [2 + ground.pick(4), 2 + ground.pick(4)];
    const first = frame * PLANNED + PLANNED - before;
    const rows = ground.rows.slice(first, first + before + after);
    const places = rows.map(({ ends }) => ends[1]!);
    rows.forEach((row, i) => {
      row.ends[1] = i === 0 ? null : places[i - 1]!;
    });
    ground.facts.set(places.at(-1)!, {});
    return rows.map(({ label }) => label);
  },
  'half-renamed': (ground, frame) =>
    // Another beginning each time: one rule is one renaming.
    jacksOf(frame, upTo(3 + ground.pick(8))).map((place) => {
      const renamed = `N${frame}-${labelAt(ground, place)}`;
      ground.floor.set(place, renamed);
      return renamed;
    }),
  'place-renamed': (ground, frame) =>
    upTo(PLANNED).map((n) => {
      const label = labelAt(ground, jack(frame, n))!;
      ground.floor.delete(jack(frame, n));
      ground.floor.set(jackToPlace(`NEW${frame}`, `P${String(n).padStart(2, '0')}`), label);
      return label;
    }),
  'template-copied'(ground, a) {
    const b = ground.frame();
    if (b === null) return null;
    return upTo(3 + ground.pick(10)).map((n) => {
      const label = labelAt(ground, jack(a, n))!;
      ground.floor.set(jack(b, n), label);
      return label;
    });
  },
  'old-cable-left'(ground, frame) {
    const label = labelAt(ground, jack(frame, 1 + ground.pick(PLANNED)))!;
    ground.floor.set(looseToPlace(`coil behind rack ${label}`), label);
    return [label];
  },
  'bypass-left'(ground, a) {
    const b = ground.frame();
    if (b === null) return null;
    replug(ground, labelAt(ground, jack(a, 3))!, jackToPlace(`PRO${a}`, 'IN'));
    replug(ground, labelAt(ground, jack(b, 3))!, jackToPlace(`PRO${a}`, 'OUT'));
    const ends = [jack(a, PLANNED + 1), jack(b, PLANNED + 2)];
    for (const place of ends) ground.floor.set(place, '');
    ground.followed.set(ends[0]!, ends[1]!);
    return ends;
  },
  'hand-slipped'(ground, frame) {
    const missed = 3 + ground.pick(12);
    const labels = upTo(PLANNED)
      .slice(missed)
      .map((n) => labelAt(ground, jack(frame, n))!);
    labels.forEach((label, i) => {
      ground.floor.set(jack(frame, missed + i), label);
    });
    ground.floor.delete(jack(frame, PLANNED));
    return labels;
  },
};

/** Plants one mistake; null where the facility has no room left for it. */
export function plantOne(ground: Ground, kind: Plantable): Planted | null {
  const frame = kind === 'sheet-slipped' ? ground.frames()?.[0] : ground.frame();
  const about = frame === undefined || frame === null ? null : makers[kind](ground, frame);
  return about && { kind, about: [...about].sort() };
}

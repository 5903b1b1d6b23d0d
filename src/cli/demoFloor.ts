// What is really in the jacks of the demo station: everything as planned except the planted differences, which are
// listed beside it so that an audit of this floor can be judged.
import type { Plan } from '../core/plan/model.ts';
import { indexPlan, placeToWords } from '../core/plan/planIndex.ts';
import { SIGHTINGS_HEADER } from '../files/sightingsCsv.ts';

interface Planted {
  kind: string;
  places: string[];
  labels: string[];
}

interface Found {
  state: string;
  label?: string;
  basis?: string;
  joinedTo?: string;
  note?: string;
}

/** Found instead of the plan, by place in words. */
const FOUND: ReadonlyMap<string, Found> = new Map<string, Found>([
  ['SW1 P03', { state: 'label', label: '1004' }],
  ['SW1 P04', { state: 'label', label: '1003' }],
  ['SW2 P05', { state: 'empty' }],
  ['SW2 P06', { state: 'label', label: '1035' }],
  ['SW2 P07', { state: 'label', label: '1036' }],
  ['SW2 P08', { state: 'label', label: '1037' }],
  ['MONA IN R', { state: 'empty' }],
  ['SW1 P21', { state: 'label', label: '7777' }],
  ['PCA NET', { state: 'unlabelled' }],
  ['LIO24 L5', { state: 'illegible', label: '40?5' }],
  ['ENC61 AES IN 2', { state: 'label', label: '2112' }],
  ['SW1 P22', { state: 'label', label: '1122' }],
  ['PP1 P22', { state: 'empty' }],
  ['AIO22 I4', { state: 'unlabelled', basis: 'followed', joinedTo: 'SW2 P15', note: 'blue network lead' }],
  ['SW2 P15', { state: 'unlabelled', basis: 'followed', joinedTo: 'AIO22 I4', note: 'blue network lead' }],
  ['SW1 P11', { state: 'label', label: '1011 | N-17' }],
  ['MIC3 XLR', { state: 'unlabelled', basis: 'followed', joinedTo: 'MIO31 M3' }],
  ['TALB T1', { state: 'empty' }],
  ['loose: tray behind Studio B desk', { state: 'label', label: '4002', note: 'coil, tied' }],
  ['R2 U26', { state: 'label', label: 'HYB41' }],
]);

/** A unit that stands elsewhere is not stated at its planned position. */
const NOT_STATED: ReadonlySet<string> = new Set(['R2 U24']);

export const PLANTED: readonly Planted[] = [
  { kind: 'wrong-jack', places: ['SW1 P03'], labels: ['1004'] },
  { kind: 'wrong-jack', places: ['SW1 P04'], labels: ['1003'] },
  { kind: 'wrong-jack', places: ['SW2 P06'], labels: ['1035'] },
  { kind: 'wrong-jack', places: ['SW2 P07'], labels: ['1036'] },
  { kind: 'wrong-jack', places: ['SW2 P08'], labels: ['1037'] },
  { kind: 'empty-jack', places: ['SW2 P05'], labels: ['1035'] },
  { kind: 'empty-jack', places: ['MONA IN R'], labels: ['2033'] },
  { kind: 'unplanned-cable', places: ['SW1 P21'], labels: ['7777'] },
  { kind: 'unlabelled-cable', places: ['PCA NET'], labels: ['1015'] },
  { kind: 'illegible-label', places: ['LIO24 L5'], labels: ['40?5'] },
  { kind: 'duplicate-label', places: ['ENC61 AES IN 2', 'ENC61 AES IN', 'PRO51 AES OUT'], labels: ['2112'] },
  { kind: 'spare-in-use', places: ['SW1 P22'], labels: ['1122'] },
  { kind: 'signal-clash', places: ['AIO22 I4', 'SW2 P15'], labels: [] },
  { kind: 'unlabelled-cable', places: ['AIO22 I4'], labels: [] },
  { kind: 'unlabelled-cable', places: ['SW2 P15'], labels: [] },
  { kind: 'old-label-left', places: ['SW1 P11'], labels: ['1011', 'N-17'] },
  { kind: 'one-end-labelled', places: ['MIC3 XLR', 'MIO31 M3'], labels: ['3003'] },
  { kind: 'not-landed', places: ['loose: tray behind Studio B desk'], labels: ['4002'] },
  { kind: 'unit-moved', places: ['R2 U26'], labels: ['HYB41'] },
];

/** The walk begins on an invented night and takes five seconds for each statement. */
const BEGIN = Date.UTC(2026, 2, 7, 22, 0, 0);
const AUTHOR = 'Night engineer';

export function planToFloor(plan: Plan): string[][] {
  const index = indexPlan(plan);
  const rows: string[][] = [];
  const told = new Set<string>();
  const say = (place: string, found: Found) => {
    const seenAt = `${new Date(BEGIN + rows.length * 5_000).toISOString().slice(0, 19)}+00:00`;
    const { state, label = '', basis = 'seen', joinedTo = '', note = '' } = found;
    rows.push([seenAt, AUTHOR, place, state, label, '', basis, joinedTo, note]);
  };
  for (const unit of plan.units) {
    const slot = unit.rack === undefined ? null : `${index.racks.get(unit.rack)?.label} U${unit.u}`;
    if (slot !== null && !NOT_STATED.has(slot)) say(slot, { state: 'label', label: unit.label });
    let empty: string[] = [];
    const flush = () => {
      const [first, last] = [empty[0], empty.at(-1)];
      if (first !== undefined && last !== undefined) {
        say(first === last ? first : `${first}..${last.slice(unit.label.length + 1)}`, { state: 'empty' });
      }
      empty = [];
    };
    for (const jack of index.jacksOf.get(unit.id) ?? []) {
      const place = placeToWords(index, jack.id);
      const planned = index.endsAt.get(jack.id)?.[0];
      const found = FOUND.get(place) ?? (planned ? { state: 'label', label: planned.cable.label } : { state: 'empty' });
      told.add(place);
      if (found.state === 'empty' && isNext(empty.at(-1), place)) {
        empty.push(place);
        continue;
      }
      flush();
      if (found.state === 'empty') empty = [place];
      else say(place, found);
    }
    flush();
  }
  for (const [place, found] of FOUND) if (!told.has(place)) say(place, found);
  return [[...SIGHTINGS_HEADER], ...rows];
}

/** Do two jacks follow each other, so that one statement may run over both? */
function isNext(before: string | undefined, place: string): boolean {
  if (before === undefined) return false;
  const [a, b] = [before, place].map((text) => /^(.*?)(\d+)$/.exec(text));
  return a !== null && b !== null && a?.[1] === b?.[1] && Number(b?.[2]) === Number(a?.[2]) + 1;
}

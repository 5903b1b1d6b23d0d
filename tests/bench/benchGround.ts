// The made-up facility in which mistakes are planted, and its walk: plan and floor start alike, a mistake changes one of
// them. Everything comes from one seed; invented data, addresses from RFC 5737. Knows no mistake.

import { jackToPlace, placeToParts, slotToPlace } from '../../src/core/plan/identity.ts';
import { type Cable, emptyPlan, type Jack, type Plan, type PlanSetting, type Unit } from '../../src/core/plan/model.ts';
import type { AuditEvent, EventKind, Payload } from '../../src/core/record/events.ts';
import { nameToKey } from '../../src/core/trade/names.ts';
import { createRandom, shuffled } from './benchFacility.ts';

/** Frames have 24 jacks, of which so many are planned; the rest are spare. */
export const PLANNED = 20;
const JACKS = 24;
const FRAMES_PER_RACK = 8;

interface Row {
  label: string;
  /** Desk or what stands in its place, then frame; null where the sheet leaves it blank. */
  ends: [string | null, string | null];
  more: Partial<Cable>;
}

export interface Ground {
  random(): number;
  pick(n: number): number;
  rows: Row[];
  rowOf(label: string): Row;
  /** Jacks that are more than a place, by id. */
  facts: Map<string, Partial<Jack>>;
  settings: PlanSetting[];
  /** What stands at a place: a label, nothing (null), a plug without a label (''). In the order of the walk. */
  floor: Map<string, string | null>;
  /** Far place to which a plug was followed. */
  followed: Map<string, string>;
  read: Payload<'setting-read'>[];
  /** A frame that nothing was planted in yet. */
  frame(): number | null;
  /** Two such frames, the second next after the first. */
  frames(): [number, number] | null;
  slotOf(frame: number): string;
}

export const jack = (frame: number, n: number) => jackToPlace(`FR${frame}`, `P${String(n).padStart(2, '0')}`);

export function createGround(cables: number, seed: number): Ground {
  const random = createRandom(seed);
  const count = Math.ceil(cables / PLANNED);
  const far = shuffled(count * PLANNED, random);
  const rows = far.map((desk, i): Row => {
    const at = jackToPlace(`DESK${Math.floor(desk / PLANNED)}`, `O${String((desk % PLANNED) + 1).padStart(2, '0')}`);
    const more = { origin: { sheet: 'Cables', row: i + 2 } };
    return { label: String(10_000 + i), ends: [at, jack(Math.floor(i / PLANNED), (i % PLANNED) + 1)], more };
  });
  const floor = new Map<string, string | null>();
  const facts = new Map<string, Partial<Jack>>();
  for (const { label, ends } of rows) for (const place of ends) floor.set(place!, label);
  for (let frame = 0; frame < count; frame++)
    for (let n = PLANNED + 1; n <= JACKS; n++) {
      floor.set(jack(frame, n), null);
      facts.set(jack(frame, n), {});
    }
  const free = new Set(shuffled(count, random));
  return {
    random,
    pick: (n) => Math.floor(random() * n),
    rows,
    rowOf: (label) => rows[Number(label) - 10_000]!,
    facts,
    settings: [],
    floor,
    followed: new Map(),
    read: [],
    frame() {
      const [one] = free;
      if (one === undefined) return null;
      free.delete(one);
      return one;
    },
    frames() {
      for (const one of free)
        if (free.has(one + 1)) {
          free.delete(one);
          free.delete(one + 1);
          return [one, one + 1];
        }
      return null;
    },
    slotOf: (frame) => slotToPlace(rackOf(frame), uOf(frame)),
  };
}

const rackOf = (frame: number) => `R${Math.floor(frame / FRAMES_PER_RACK) + 1}`;
/** Rack units from 30 on stay free. */
const uOf = (frame: number) => (frame % FRAMES_PER_RACK) * 3 + 1;

export function groundToPlan({ rows, facts, settings }: Ground): Plan {
  const jacks = new Map<string, Jack>();
  const units = new Map<string, Unit>();
  const jacksOf = new Map<string, Set<string>>();
  const list = (place: string) => {
    const parts = placeToParts(place);
    if (parts.type !== 'jack') return;
    const { unit, jack: label } = parts;
    jacks.set(place, { id: place, unit, label, mult: false, spare: false, implied: false, ...facts.get(place) });
    const frame = /^FR(\d+)$/.exec(unit);
    const at = frame ? { rack: rackOf(Number(frame[1])), u: uOf(Number(frame[1])) } : {};
    const base = { id: unit, label: unit, room: 'Technical room', heightU: 1, mounted: 'front' as const, ...at };
    units.set(unit, { ...base, faces: [], implied: false });
    jacksOf.set(unit, (jacksOf.get(unit) ?? new Set()).add(place));
  };
  for (const { ends } of rows) for (const place of ends) if (place !== null) list(place);
  for (const place of facts.keys()) list(place);
  const cables = rows.map(({ label, ends, more }): Cable => {
    const both = ends.map((place, i) => {
      const [unit = '', name = ''] = place?.split('/') ?? [];
      return { end: i === 0 ? 'A' : 'B', place, unit, jack: name };
    });
    return { id: nameToKey(label), label, ends: both, status: 'in-use', onAir: false, ...more };
  });
  const racks = new Set([...units.values()].flatMap(({ rack }) => rack ?? []));
  return {
    ...emptyPlan,
    origin: 'sheet',
    name: `Facility of ${rows.length} cables`,
    racks: [...racks].map((id) => ({ id, label: id, heightU: 42, numbering: 'bottom-up', implied: false })),
    units: [...units.values()].map((unit) => ({ ...unit, faces: [faceOf(jacksOf.get(unit.id)!)] })),
    jacks: [...jacks.values()],
    cables,
    settings,
  };
}

function faceOf(jacks: ReadonlySet<string>): Unit['faces'][number] {
  return { face: 'rear', through: false, rows: [[...jacks]] };
}

/**
 * One person's walk along the floor; some places are not seen, some labels are read as what nobody planned.
 * @returns what was said, and the labels that were read wrongly somewhere.
 */
export function walkGround(
  ground: Ground,
  unseen: number,
  misread: number,
): { events: AuditEvent[]; misread: Set<string> } {
  const wrong = new Set<string>();
  const events: AuditEvent[] = [];
  const say = <K extends EventKind>(kind: K, payload: Payload<K>) => {
    const i = events.length;
    const id = `e${String(i).padStart(8, '0')}`;
    const head = {
      v: 1,
      id,
      station: 's',
      audit: 'a',
      log: 'l',
      seq: i,
      prev: null,
      author: 'A',
      at: i * 1000,
      zone: 0,
    };
    events.push({ ...head, kind, payload } as AuditEvent);
  };
  say('audit-started', {
    name: 'All of it',
    occasion: 'after-move',
    scope: { racks: [], rooms: [] },
    exclusions: [],
    permission: 'look',
    people: ['A'],
    plan: 'p',
    blind: false,
  });
  let strange = 0;
  for (const [place, label] of ground.floor) {
    if (ground.random() < unseen) continue;
    const far = ground.followed.get(place);
    const common = {
      places: [place],
      said: [place.replace('/', ' ')],
      basis: far === undefined ? ('seen' as const) : ('followed' as const),
      ...(far === undefined ? {} : { joinedTo: far }),
    };
    if (label === null) say('sighting', { ...common, state: 'empty', plugs: [] });
    else if (label === '') say('sighting', { ...common, state: 'unlabelled', plugs: [{ labels: [] }] });
    else {
      const isWrong = ground.random() < misread;
      if (isWrong) wrong.add(label.replace(/-[A-Z]$/, ''));
      const text = isWrong ? `X${strange++}` : label;
      say('sighting', { ...common, state: 'label', plugs: [{ labels: [{ text }] }] });
    }
  }
  for (const reading of ground.read) if (ground.random() >= unseen) say('setting-read', reading);
  return { events, misread: wrong };
}

// A made-up facility of any size for measurements: plan, schedule rows and sightings from one seed. The same size and
// seed give the same data on every machine. Half of the jacks are planned; a few in a hundred on the floor differ.

import { jackToPlace } from '../../src/core/plan/identity.ts';
import { type Cable, emptyPlan, type Jack, type Plan, type Rack, type Unit } from '../../src/core/plan/model.ts';
import type { AuditEvent, EventOf, Plug, State } from '../../src/core/record/events.ts';
import type { Signal } from '../../src/core/trade/kinds.ts';
import { nameToKey } from '../../src/core/trade/names.ts';

export interface Facility {
  plan: Plan;
  /** The schedule as a sheet would hold it, header first. */
  rows: string[][];
  /** The start of an audit of the whole plan, and one sighting for each end of each cable. */
  events: AuditEvent[];
  /** A further sighting, of a place and label chosen by its number. */
  another(i: number): AuditEvent;
}

const JACKS_PER_UNIT = 32;
const UNITS_PER_RACK = 20;
const KINDS: readonly { prefix: string; signal: Signal; type: string }[] = [
  { prefix: 'SW', signal: 'network', type: 'Cat6 blue' },
  { prefix: 'AIO', signal: 'line-audio', type: 'Pair grey' },
  { prefix: 'DIO', signal: 'aes3', type: '110 ohm violet' },
  { prefix: 'MIO', signal: 'microphone', type: 'Pair green' },
];

/** A small generator of even numbers between 0 and 1 (mulberry32, public domain); not for anything secret. */
export function createRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** 0 to `count` - 1 in an order that only the seed decides. */
export function shuffled(count: number, random: () => number): number[] {
  const order = Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

/** @param cables Number of cables; there are four jacks for each. */
export function createFacility(cables: number, seed = 1): Facility {
  const random = createRandom(seed);
  const equipment = makeEquipment(cables * 4);
  const far = shuffled(cables, random);
  const { jacks, units } = equipment;
  const list = Array.from({ length: cables }, (_, i): Cable => {
    const [a, b] = [jacks[2 * i]!, jacks[2 * (cables + far[i]!)]!];
    const kind = kindOf(units.get(a.unit)!.number);
    const label = String(10_000 + i);
    const end = (letter: string, jack: Jack) => {
      const { unit, room } = units.get(jack.unit)!;
      return { end: letter, place: jack.id, location: room, unit: unit.label, jack: jack.label };
    };
    return {
      id: nameToKey(label),
      label,
      ends: [end('A', a), end('B', b)],
      signal: kind.signal,
      signalText: kind.signal,
      type: kind.type,
      length: String(3 + (i % 40)),
      status: 'in-use',
      onAir: i % 50 === 0,
      origin: { sheet: 'Cables', row: i + 2 },
    };
  });
  const plan: Plan = {
    ...emptyPlan,
    origin: 'sheet',
    name: `Facility of ${cables} cables`,
    racks: equipment.racks,
    units: [...units.values()].map(({ unit }) => unit),
    jacks,
    cables: list,
  };
  return {
    plan,
    rows: planToRows(plan),
    events: makeEvents(plan, random),
    another(i) {
      const cable = list[(i * 7919) % list.length]!;
      // One in four is somewhere else than planned.
      const place = i % 4 === 0 ? jacks[(i * 104_729) % jacks.length]!.id : cable.ends[i % 2]!.place!;
      return sighting(1_000_000 + i, place, 'label', cable.label);
    },
  };
}

function kindOf(unit: number) {
  return KINDS[unit % KINDS.length]!;
}

function makeEquipment(count: number) {
  const jacks: Jack[] = [];
  const racks: Rack[] = [];
  const units = new Map<string, { unit: Unit; room: string; number: number }>();
  for (let number = 0; number * JACKS_PER_UNIT < count; number++) {
    const rack = `R${Math.floor(number / UNITS_PER_RACK) + 1}`;
    const room = `Room ${Math.floor(number / UNITS_PER_RACK / 8) + 1}`;
    if (number % UNITS_PER_RACK === 0) {
      racks.push({ id: rack, label: rack, room, heightU: 42, numbering: 'bottom-up', implied: false });
    }
    const { prefix, signal } = kindOf(number);
    const label = `${prefix}${number + 1}`;
    const own: Jack[] = [];
    for (let i = 0; i < JACKS_PER_UNIT && number * JACKS_PER_UNIT + i < count; i++) {
      const name = `P${String(i + 1).padStart(2, '0')}`;
      const base = { id: jackToPlace(label, name), unit: label, label: name, signal };
      own.push({ ...base, direction: 'both', mult: false, spare: false, implied: false });
    }
    jacks.push(...own);
    const unit: Unit = {
      id: label,
      label,
      room,
      rack,
      u: (number % UNITS_PER_RACK) * 2 + 1,
      heightU: 1,
      mounted: 'front',
      faces: [{ face: 'rear', through: false, rows: [own.slice(0, 16), own.slice(16)].map((r) => r.map((j) => j.id)) }],
      implied: false,
    };
    units.set(label, { unit, room, number });
  }
  return { jacks, racks, units };
}

const HEADER = ['Cable No', 'From Room', 'From Unit', 'From Jack', 'To Room', 'To Unit', 'To Jack'];

function planToRows(plan: Plan): string[][] {
  const rows = plan.cables.map((cable) => [
    cable.label,
    ...cable.ends.flatMap((end) => [end.location ?? '', end.unit, end.jack]),
    cable.signalText ?? '',
    cable.type ?? '',
    cable.length ?? '',
  ]);
  return [[...HEADER, 'Signal', 'Cable Type', 'Length'], ...rows];
}

function head(i: number) {
  const id = `e${String(i).padStart(8, '0')}`;
  return { v: 1, id, station: 's', audit: 'a', log: 'l', seq: i, prev: null, author: 'A', at: i * 1000, zone: 0 };
}

function sighting(i: number, place: string, state: State, label?: string): AuditEvent {
  const plugs: Plug[] = label ? [{ labels: [{ text: label }] }] : state === 'unlabelled' ? [{ labels: [] }] : [];
  const payload = { places: [place], said: [place.replace('/', ' ')], state, plugs, basis: 'seen' as const };
  return { ...head(i), kind: 'sighting', payload };
}

/** What was seen: in a hundred ends one pair exchanged, one empty, one without label, one with a label off the plan. */
function makeEvents(plan: Plan, random: () => number): AuditEvent[] {
  const start: EventOf<'audit-started'> = {
    ...head(0),
    kind: 'audit-started',
    payload: {
      name: 'All of it',
      occasion: 'after-move',
      scope: { racks: [], rooms: [] },
      exclusions: [],
      permission: 'look',
      people: ['A'],
      plan: 'p',
      blind: false,
    },
  };
  const labels = plan.cables.map((cable) => [cable.label, cable.label]);
  for (let i = 0; i + 1 < labels.length; i++) {
    if (random() < 0.01) [labels[i]![1], labels[i + 1]![1]] = [labels[i + 1]![1]!, labels[i]![1]!];
  }
  const events: AuditEvent[] = [start];
  plan.cables.forEach((cable, i) => {
    cable.ends.forEach((end, side) => {
      const chance = random();
      const seq = events.length;
      if (chance < 0.01) events.push(sighting(seq, end.place!, 'empty'));
      else if (chance < 0.02) events.push(sighting(seq, end.place!, 'unlabelled'));
      else if (chance < 0.03) events.push(sighting(seq, end.place!, 'label', `X${seq}`));
      else events.push(sighting(seq, end.place!, 'label', labels[i]![side]!));
    });
  });
  return events;
}

// Values read off pages, knobs and testers against the plan's, and hazards seen. Later differing readings stand
// beside each other; the newest by the phone's clock is the one that is judged, ties by id.

import { derived } from '../plan/derived.ts';
import { type EventId, type PlaceId, type UnitId, unitOf } from '../plan/identity.ts';
import type { PlanSetting } from '../plan/model.ts';
import { type PlanIndex, settingKey } from '../plan/planIndex.ts';
import { type SaidSetting, type SettingSpot, settingSpot } from '../plan/settingSpot.ts';
import type { EventOf } from '../record/events.ts';
import { isRenamedValue } from '../record/renameNames.ts';
import type { Severity } from '../trade/kinds.ts';
import { type PhantomVictim, saysRibbon, textToPhantom } from '../trade/phantom.ts';
import { sameValue, settingNameKeys, valueKey } from '../trade/settingNames.ts';
import { type Discrepancy, type Finding, makeDiscrepancy } from './discrepancy.ts';
import { isRibbonAt, victimOf } from './phantom.ts';

type SettingRead = EventOf<'setting-read'>;

/** All that was read of one value and stands, by time and id: the first as found, the last as left. */
interface SettingReads {
  spot: SettingSpot;
  reads: SettingRead[];
}

export interface Settings {
  /** Returns the places whose own differences may be others now. */
  read(event: SettingRead): PlaceId[];
  withdraw(event: EventId): PlaceId[];
  /** What stands: the reading, else the plan's value. */
  valueOf(setting: SaidSetting): string | undefined;
  /** Phantom power at an input, as read, else by plan; null where nobody knows. */
  phantomAt(place: PlaceId): 'on' | 'off' | null;
  /** The same by plan alone. */
  plannedPhantom(place: PlaceId): 'on' | 'off' | null;
  /** Every value that was read and stands. */
  readings(): { unit: UnitId; place?: PlaceId | undefined; name: string; value: string }[];
  history(): SettingReads[];
  discrepancies(): Discrepancy[];
}

type SettingKind = Extract<Finding, { setting?: string }>['kind'];

/** Settings that carry a service to the listener when they differ. */
const ON_AIR = new Set(['ADDRESS', 'CHANNEL', 'NAME', 'MULTICAST']);
const UNIQUE: readonly [name: string, kind: 'duplicate-channel' | 'duplicate-address'][] = [
  ['CHANNEL', 'duplicate-channel'],
  ['ADDRESS', 'duplicate-address'],
];

interface State {
  indexNow: () => PlanIndex;
  all: Map<EventId, SettingRead>;
  withdrawn: Set<EventId>;
  /** By what each counts for, which the plan's index decides. */
  groups: Map<string, SettingReads>;
  groupsOf: PlanIndex | null;
  // Asked for every jack of a face; derived anew only after a reading or a withdrawal.
  known: Discrepancy[] | null;
  knownOf: PlanIndex | null;
}

interface Standing {
  spot: SettingSpot;
  event: SettingRead;
}

export function createSettings(indexNow: () => PlanIndex): Settings {
  const s: State = {
    indexNow,
    all: new Map(),
    withdrawn: new Set(),
    groups: new Map(),
    groupsOf: null,
    known: [],
    knownOf: null,
  };
  return {
    read: (event) => read(s, event),
    withdraw: (event) => withdraw(s, event),
    valueOf: (setting) => standsAs(s, setting),
    phantomAt(place) {
      const planned = plannedPhantoms(indexNow()).get(place);
      const key = planned ? settingKey(planned) : `${place} PHANTOM`;
      const value = currentOf(s, key) ?? planned?.value;
      return value === undefined ? null : textToPhantom(value);
    },
    plannedPhantom(place) {
      const planned = plannedPhantoms(indexNow()).get(place);
      return planned === undefined ? null : textToPhantom(planned.value);
    },
    history: () => history(s),
    readings: () =>
      standing(s).map(({ spot: { unit, place, name }, event: { payload } }) => ({
        unit,
        place,
        name,
        value: payload.value,
      })),
    discrepancies() {
      // Names being given change what counts as a difference.
      if (s.knownOf !== indexNow()) s.known = null;
      s.knownOf = indexNow();
      const stands = s.known ? [] : standing(s);
      s.known ??= [...stands.flatMap((one) => judge(s, one)), ...duplicates(s, stands)];
      return s.known;
    },
  };
}

function read(s: State, event: SettingRead): PlaceId[] {
  grouped(s);
  s.all.set(event.id, event);
  s.known = null;
  return touchedBy(s, put(s, event), event.payload.place);
}

function withdraw(s: State, event: EventId): PlaceId[] {
  s.withdrawn.add(event);
  const gone = s.all.get(event);
  if (s.all.size > 0) s.known = null;
  return gone ? touchedBy(s, settingSpot(s.indexNow(), gone.payload), gone.payload.place) : [];
}

function touchedBy(s: State, { place, unit }: SettingSpot, said: PlaceId | undefined): PlaceId[] {
  return [...new Set([said, place ?? onlyJack(s.indexNow(), unit)])].filter((one) => one !== undefined);
}

function put(s: State, event: SettingRead): SettingSpot {
  const spot = settingSpot(s.indexNow(), event.payload);
  const group = s.groups.get(spot.key);
  if (group) group.reads.push(event);
  else s.groups.set(spot.key, { spot, reads: [event] });
  return spot;
}

function grouped(s: State): State['groups'] {
  if (s.groupsOf !== s.indexNow()) {
    s.groupsOf = s.indexNow();
    s.groups = new Map();
    for (const event of s.all.values()) put(s, event);
  }
  return s.groups;
}

function inOrder(s: State, reads: readonly SettingRead[]): SettingRead[] {
  return reads.filter(({ id }) => !s.withdrawn.has(id)).sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
}

function history(s: State): SettingReads[] {
  return [...grouped(s).values()].map(({ spot, reads }) => ({ spot, reads: inOrder(s, reads) }));
}

function standing(s: State): Standing[] {
  return history(s).flatMap(({ spot, reads }) => {
    const event = reads.at(-1);
    return event ? [{ spot, event }] : [];
  });
}

function currentOf(s: State, key: string): string | undefined {
  if (s.all.size === 0) return undefined;
  return inOrder(s, grouped(s).get(key)?.reads ?? []).at(-1)?.payload.value;
}

function standsAs(s: State, setting: SaidSetting): string | undefined {
  const { key, plan } = settingSpot(s.indexNow(), setting);
  return currentOf(s, key) ?? plan;
}

function judge(s: State, { spot, event }: Standing): Discrepancy[] {
  const { place, name, plan, planned } = spot;
  const { value } = event.payload;
  const at = [place ?? spot.unit];
  const { key } = settingNameKeys(name);
  const read = { setting: name, found: value, ...(plan === undefined ? {} : { plan }) };
  const say = (kind: SettingKind, severity: Severity, victim?: PhantomVictim) =>
    makeDiscrepancy({ kind, ...read, ...(victim ? { victim } : {}) }, severity, at, [], [event.id]);
  if (key === 'POLARITY' && /revers/i.test(value)) return [say('polarity-reversed', 'service')];
  if (key === 'LEGS' && /swap|exchang|revers/i.test(value)) return [say('left-right-swapped', 'service')];
  if (key === 'PHANTOM' && textToPhantom(value) === 'on') {
    const planned = plan === undefined ? null : textToPhantom(plan);
    const victim = place === undefined ? null : victimAt(s, place, planned === 'on');
    const isDynamic = place !== undefined && /dyn/i.test(microphoneOf(s, place));
    if (victim !== null || (planned === 'off' && !isDynamic))
      return [say('phantom-hazard', 'equipment', victim ?? undefined)];
  }
  if (plan === undefined || sameValue(name, plan, value)) return [];
  if (key === 'SERIAL' || key === 'MAC') return [say('unit-replaced', 'record')];
  if (planned && isRenamedValue(s.indexNow(), planned, value)) return [];
  return [say('setting-differs', ON_AIR.has(key) ? 'on-air' : 'service')];
}

function microphoneOf(s: State, place: PlaceId): string {
  return standsAs(s, { unit: unitOf(place), place, name: 'microphone' }) ?? '';
}

/** What hangs on an input by plan; what was read there is judged with its label. Where the plan has it on, audio is no line. */
function victimAt(s: State, place: PlaceId, isPlannedOn: boolean): PhantomVictim | null {
  const index = s.indexNow();
  if (isRibbonAt(index, place) || saysRibbon(microphoneOf(s, place))) return 'ribbon';
  for (const { cable } of index.endsAt.get(place) ?? []) {
    const victim = victimOf(index, cable, place);
    if (victim === 'ribbon' || (victim !== null && !isPlannedOn)) return victim;
  }
  return null;
}

/** The same channel or address claimed twice, at least one of them really read. */
function duplicates(s: State, read: readonly Standing[]): Discrepancy[] {
  const index = s.indexNow();
  return UNIQUE.flatMap(([name, kind]) => {
    const claims = new Map<string, Claim[]>();
    const claim = (one: Claim) => {
      const key = valueKey(name, one.text);
      claims.set(key, [...(claims.get(key) ?? []), one]);
    };
    const readKeys = new Set<string>();
    for (const { spot, event } of read) {
      if (settingNameKeys(spot.name).key !== name) continue;
      readKeys.add(spot.key);
      const { unit, place } = spot;
      claim({ unit, place, text: event.payload.value, event: event.id });
    }
    for (const setting of index.plan.settings) {
      const { unit, place, value } = setting;
      const key = settingKey(setting);
      const counts = index.settings.get(key) === setting;
      if (counts && settingNameKeys(setting.name).key === name && !readKeys.has(key))
        claim({ unit, place, text: value, event: null });
    }
    return [...claims.values()].flatMap((same) => {
      const at = rivalsAmong(same, name === 'ADDRESS');
      const events = at.flatMap(({ event }) => event ?? []);
      if (at.length < 2 || events.length === 0) return [];
      const value = [...at.map(({ text }) => text)].sort()[0]!;
      const places = at.map(({ unit, place }) => place ?? unit).sort();
      return [makeDiscrepancy({ kind, found: value }, 'on-air', places, [value], events)];
    });
  });
}

interface Claim {
  unit: UnitId;
  place: PlaceId | undefined;
  text: string;
  event: EventId | null;
}

/** A unit's address is that of its jacks: claims of one unit are no rivals. A channel is one input's; its unit says the same. */
function rivalsAmong(same: readonly Claim[], isPerUnit: boolean): readonly Claim[] {
  if (isPerUnit) return new Set(same.map(({ unit }) => unit)).size < 2 ? [] : same;
  return same.filter(
    (one) => one.place !== undefined || !same.some((other) => other !== one && other.unit === one.unit),
  );
}

/** Inputs of which the plan says whether phantom is on; what it says of a unit with one jack counts for that jack. */
const plannedPhantoms = derived((index: PlanIndex) => {
  const found = new Map<PlaceId, PlanSetting>();
  for (const one of index.plan.settings) {
    if (settingNameKeys(one.name).key !== 'PHANTOM') continue;
    const place = one.place ?? onlyJack(index, one.unit);
    if (place !== undefined && (one.place !== undefined || !found.has(place))) found.set(place, one);
  }
  return found;
});

function onlyJack(index: PlanIndex, unit: UnitId): PlaceId | undefined {
  const jacks = index.jacksOf.get(unit);
  return jacks?.length === 1 ? jacks[0]!.id : undefined;
}

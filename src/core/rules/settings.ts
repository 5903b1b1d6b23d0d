// Values read off pages, knobs and testers against the plan's, and hazards seen. Later differing readings stand
// beside each other; the newest by the phone's clock is the one that is judged, ties by id.

import type { EventId, PlaceId, UnitId } from '../plan/identity.ts';
import { type PlanIndex, settingKey } from '../plan/planIndex.ts';
import type { EventOf } from '../record/events.ts';
import { isRenamedValue } from '../record/renameNames.ts';
import { hazardById } from '../trade/hazards.ts';
import type { Severity } from '../trade/kinds.ts';
import { nameToKey } from '../trade/names.ts';
import { type Discrepancy, type Finding, makeDiscrepancy } from './discrepancy.ts';

type SettingRead = EventOf<'setting-read'>;

export interface Settings {
  read(event: SettingRead): void;
  withdraw(event: EventId): void;
  /** What stands: the reading, else the plan's value. */
  valueOf(setting: { unit: UnitId; place?: PlaceId | undefined; name: string }): string | undefined;
  /** Every value that was read and stands. */
  readings(): { unit: UnitId; place?: PlaceId | undefined; name: string; value: string }[];
  /** What was read of each setting and stands, by time and id: the first as found, the last as left. */
  history(): SettingRead[][];
  discrepancies(): Discrepancy[];
  hazard(event: EventOf<'hazard-seen'>): Discrepancy;
}

type SettingKind = Extract<Finding, { setting?: string }>['kind'];

/** Settings that carry a service to the listener when they differ. */
const ON_AIR = new Set(['ADDRESS', 'CHANNEL', 'SOURCE-NAME', 'NAME', 'MULTICAST-ADDRESS']);
const UNIQUE: readonly [name: string, kind: 'duplicate-channel' | 'duplicate-address'][] = [
  ['CHANNEL', 'duplicate-channel'],
  ['ADDRESS', 'duplicate-address'],
];

type State = {
  indexNow: () => PlanIndex;
  byKey: Map<string, Map<EventId, SettingRead>>;
  withdrawn: Set<EventId>;
  // Asked for every jack of a face; derived anew only after a reading or a withdrawal.
  known: Discrepancy[] | null;
  knownOf: PlanIndex | null;
};

export function createSettings(indexNow: () => PlanIndex): Settings {
  const s: State = {
    indexNow,
    byKey: new Map<string, Map<EventId, SettingRead>>(),
    withdrawn: new Set<EventId>(),
    known: [],
    knownOf: null,
  };

  return {
    read(event) {
      const key = settingKey(event.payload);
      const reads = s.byKey.get(key) ?? new Map<EventId, SettingRead>();
      s.byKey.set(key, reads);
      reads.set(event.id, event);
      s.known = null;
    },
    withdraw(event) {
      s.withdrawn.add(event);
      if (s.byKey.size > 0) s.known = null;
    },
    valueOf(setting) {
      const key = settingKey(setting);
      return (s.byKey.has(key) ? currentOf(s, key)?.payload.value : undefined) ?? indexNow().settings.get(key)?.value;
    },
    history: () => history(s),
    readings: () => standing(s).map(({ payload }) => payload),
    discrepancies() {
      // Names being given change what counts as a difference.
      if (s.knownOf !== indexNow()) s.known = null;
      s.knownOf = indexNow();
      const read = s.known ? [] : standing(s);
      s.known ??= [...read.flatMap((event) => judge(s, event)), ...duplicates(s, read)];
      return s.known;
    },
    hazard(event) {
      const { hazard, place, note } = event.payload;
      const known = hazardById(hazard);
      const severity: Severity = known?.severity ?? 'equipment';
      const basis = { type: 'seen', note, event: event.id } as const;
      return makeDiscrepancy({ kind: 'hazard-seen', hazard, basis }, severity, place ? [place] : [], [], [event.id]);
    },
  };
}

function history(s: State): SettingRead[][] {
  return [...s.byKey.values()].map((reads) =>
    [...reads.values()]
      .filter((event) => !s.withdrawn.has(event.id))
      .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1)),
  );
}

function standing(s: State): SettingRead[] {
  return history(s).flatMap((reads) => reads.at(-1) ?? []);
}

function currentOf(s: State, key: string): SettingRead | undefined {
  return standing(s).find((event) => settingKey(event.payload) === key);
}

function judge(s: State, event: SettingRead): Discrepancy[] {
  const { unit, place, name, value } = event.payload;
  const planned = s.indexNow().settings.get(settingKey(event.payload));
  const plan = planned?.value;
  const at = [place ?? unit];
  const key = nameToKey(name);
  const read = { setting: name, found: value, ...(plan === undefined ? {} : { plan }) };
  const say = (kind: SettingKind, severity: Severity) =>
    makeDiscrepancy({ kind, ...read }, severity, at, [], [event.id]);
  if (key === 'POLARITY' && /revers/i.test(value)) return [say('polarity-reversed', 'service')];
  if (key === 'LEGS' && /swap|exchang|revers/i.test(value)) return [say('left-right-swapped', 'service')];
  if (key === 'PHANTOM' && /^on$/i.test(value.trim())) {
    const type = s.indexNow().settings.get(settingKey({ unit, place, name: 'microphone' }))?.value ?? '';
    if (/ribbon/i.test(type) || (plan !== undefined && /^off$/i.test(plan) && !/dyn/i.test(type))) {
      return [say('phantom-hazard', 'equipment')];
    }
  }
  if (plan === undefined || nameToKey(plan) === nameToKey(value)) return [];
  if (key === 'SERIAL' || key === 'MAC') return [say('unit-replaced', 'record')];
  if (planned && isRenamedValue(s.indexNow(), planned, value)) return [];
  return [say('setting-differs', ON_AIR.has(key) ? 'on-air' : 'service')];
}

/** The same channel or address claimed twice, at least one of them really read. */
function duplicates(s: State, read: SettingRead[]): Discrepancy[] {
  return UNIQUE.flatMap(([name, kind]) => {
    const claims = new Map<string, { at: PlaceId; text: string; event: EventId | null }[]>();
    const claim = (value: string, at: PlaceId, event: EventId | null) => {
      const list = claims.get(nameToKey(value));
      if (list) list.push({ at, text: value, event });
      else claims.set(nameToKey(value), [{ at, text: value, event }]);
    };
    const readKeys = new Set<string>();
    for (const event of read) {
      if (nameToKey(event.payload.name) !== name) continue;
      readKeys.add(settingKey(event.payload));
      claim(event.payload.value, event.payload.place ?? event.payload.unit, event.id);
    }
    for (const setting of s.indexNow().plan.settings) {
      const key = settingKey(setting);
      const counts = s.indexNow().settings.get(key) === setting;
      if (counts && nameToKey(setting.name) === name && !readKeys.has(key))
        claim(setting.value, setting.place ?? setting.unit, null);
    }
    return [...claims.values()].flatMap((at) => {
      const events = at.flatMap(({ event }) => event ?? []);
      if (at.length < 2 || events.length === 0) return [];
      const value = [...at.map(({ text }) => text)].sort()[0]!;
      const places = at.map((one) => one.at).sort();
      return [makeDiscrepancy({ kind, found: value }, 'on-air', places, [value], events)];
    });
  });
}

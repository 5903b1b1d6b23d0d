// Small plans and events for tests, all invented. Facts of a test stand in the test, not here.

import { jackToPlace, looseToPlace } from '../../../src/core/plan/identity.ts';
import { type Cable, emptyPlan, type Jack, type Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent, EventKind, Payload, Plug, State } from '../../../src/core/record/events.ts';
import type { Signal } from '../../../src/core/trade/kinds.ts';
import { nameToKey } from '../../../src/core/trade/names.ts';

/** `SW1 P03` to its place id; `loose: tray of R2` to a loose place. */
export function at(words: string): string {
  if (words.startsWith('loose:')) return looseToPlace(words.slice(6).trim());
  const space = words.indexOf(' ');
  return jackToPlace(nameToKey(words.slice(0, space)), words.slice(space + 1));
}

export type CableRow = [label: string, from: string, to: string, more?: Partial<Cable>];

/** A plan from rows `[label, 'MIO31 NET', 'SW1 P02']`; units and jacks are implied, one room, no racks. */
export function planOf(
  rows: CableRow[],
  jacks: (Partial<Jack> & { at: string })[] = [],
  more: Partial<Plan> = {},
): Plan {
  const seen = new Map<string, number>();
  const cables = rows.map(([label, from, to, extra]): Cable => {
    const key = nameToKey(label);
    const count = (seen.get(key) ?? 0) + 1;
    seen.set(key, count);
    const ends = [from, to].map((words, i) => {
      const [unit = '', ...jack] = words.split(' ');
      return { end: i === 0 ? 'A' : 'B', place: words === '' ? null : at(words), unit, jack: jack.join(' ') };
    });
    const id = count === 1 ? key : `${key}~${count}`;
    return { id, label, ends, status: 'in-use', onAir: false, ...extra };
  });
  const known = new Map<string, Jack>();
  const addJack = (words: string, extra: Partial<Jack> = {}) => {
    const id = at(words);
    const unit = id.slice(0, id.indexOf('/'));
    const label = words.slice(words.indexOf(' ') + 1);
    known.set(id, { id, unit, label, mult: false, spare: false, implied: true, ...known.get(id), ...extra });
  };
  for (const [, from, to] of rows) for (const words of [from, to]) if (words !== '') addJack(words);
  for (const { at: words, ...extra } of jacks) addJack(words, extra);
  const units = [...new Set([...known.values()].map((jack) => jack.unit))].map((id) => ({
    id,
    label: id,
    room: 'Technical room',
    heightU: 1,
    mounted: 'front' as const,
    faces: [
      {
        face: 'rear' as const,
        through: false,
        rows: [[...known.values()].filter((j) => j.unit === id).map((j) => j.id)],
      },
    ],
    implied: true,
  }));
  return { ...emptyPlan, origin: 'sheet', name: 'test', cables, jacks: [...known.values()], units, ...more };
}

export const withSignal = (signal: Signal, more: Partial<Cable> = {}): Partial<Cable> => ({ signal, ...more });

let made = 0;
/** An event of an invented person; ids and times rise. */
export function event<K extends EventKind>(kind: K, payload: Payload<K>, more: Partial<AuditEvent> = {}): AuditEvent {
  made += 1;
  const head = {
    v: 1,
    id: `e${String(made).padStart(6, '0')}`,
    station: 's',
    audit: 'a',
    log: 'l',
    seq: made,
    prev: null,
  };
  return { ...head, author: 'I. Halloran', at: 1_000_000 + made * 1000, zone: 0, kind, payload, ...more } as AuditEvent;
}

export function started(more: Partial<Payload<'audit-started'>> = {}): AuditEvent {
  return event('audit-started', {
    name: 'After the move',
    occasion: 'after-move',
    scope: { racks: [], rooms: [] },
    exclusions: [],
    permission: 'look',
    people: [],
    plan: 'p',
    blind: false,
    ...more,
  });
}

/** `saw('SW1 P03', '1004')`; several labels on one plug as `1004 | 9004`. */
export function saw(words: string, label: string, more: Partial<Payload<'sighting'>> = {}): AuditEvent {
  const plug: Plug = { labels: label.split(' | ').map((text) => ({ text })) };
  return statement([words], 'label', { plugs: [plug], ...more });
}

export function statement(words: string[], state: State, more: Partial<Payload<'sighting'>> = {}): AuditEvent {
  const plugs: Plug[] = state === 'unlabelled' || state === 'plugged' ? [{ labels: [] }] : [];
  return event('sighting', { places: words.map(at), said: words, state, plugs, basis: 'seen', ...more });
}

/** Kinds with their first place and labels, sorted, for comparing. */
export function short(discrepancies: { kind: string; severity: string; labels: string[] }[]): string[] {
  return discrepancies.map((d) => `${d.kind} ${d.severity} ${d.labels.join(',')}`.trim()).sort();
}

// Tests of cable ends: which failed, which are missing, and all that were made. The last test of an end counts, by time
// and id; a test that a later one replaced stays on record. Derived, free of order.

import type { Cable } from '../plan/model.ts';
import { isOnAir } from '../plan/onAir.ts';
import type { EventOf } from '../record/events.ts';
import { nameToKey } from '../trade/names.ts';
import { holds } from './cableDiscrepancies.ts';
import { type Discrepancy, makeDiscrepancy } from './discrepancy.ts';
import type { Fold } from './foldView.ts';

type Worked = EventOf<'worked'>;

export interface EndTest {
  event: string;
  /** Null where the plan does not have the cable, or not here. */
  cable: Cable | null;
  end: string | null;
  label: string;
  place: string;
  result: 'pass' | 'fail';
  words: string | null;
  author: string;
  at: number;
  /** A later test of the same end counts in its place. */
  again: boolean;
}

/** One end of one cable: what was said of it counts together. */
const endKey = ({ payload }: Worked): string => `${nameToKey(payload.cable)} ${payload.place}`;

/** By time. */
export function testsOf(fold: Fold): EndTest[] {
  const tests = fold.of('worked').filter(({ payload }) => payload.stage === 'tested');
  const last = new Map(tests.map((event) => [endKey(event), event.id]));
  return tests.map((event): EndTest => {
    const { id, payload, author, at } = event;
    const planned = plannedHere(fold, payload);
    return {
      event: id,
      cable: planned?.cable ?? null,
      end: planned?.end.end ?? null,
      label: planned?.cable.label ?? payload.cable,
      place: payload.place,
      result: payload.result ?? 'pass',
      words: payload.words || null,
      author,
      at,
      again: last.get(endKey(event)) !== id,
    };
  });
}

function plannedHere({ index }: Fold, { cable, place }: Worked['payload']) {
  return index.endsAt.get(place)?.find((one) => nameToKey(one.cable.label) === nameToKey(cable));
}

/** An end whose last test failed: as bad as what hangs on the cable, and a service at least. */
export function failedTests(fold: Fold): Discrepancy[] {
  return testsOf(fold).flatMap((test) => {
    if (test.again || test.result === 'pass') return [];
    const { cable, label, place, words, event } = test;
    const finding = { kind: 'test-failed', words, ...(cable ? { cable: cable.id } : {}) } as const;
    return [makeDiscrepancy(finding, isOnAir(fold, cable?.id) ? 'on-air' : 'service', [place], [label], [event])];
  });
}

/**
 * Ends that are in and that nobody tested: where something is built, each in scope whose label stands there or that was
 * said to be landed; elsewhere only ends that were worked on.
 */
export function missingTests(fold: Fold): Discrepancy[] {
  const byEnd = new Map<string, Worked[]>();
  for (const event of fold.of('worked')) byEnd.set(endKey(event), [...(byEnd.get(endKey(event)) ?? []), event]);
  const missing: Discrepancy[] = [];
  const add = (place: string, label: string, cable: string | undefined, evidence: string[]) => {
    const finding = { kind: 'not-tested', ...(cable === undefined ? {} : { cable }) } as const;
    missing.push(makeDiscrepancy(finding, 'record', [place], [label], evidence));
  };
  for (const events of byEnd.values()) {
    const { payload } = events[0]!;
    const isIn = events.some(({ payload: one }) => one.stage === 'landed' || one.stage === 'labelled');
    if (!isIn || events.some(({ payload: one }) => one.stage === 'tested')) continue;
    const planned = plannedHere(fold, payload)?.cable;
    const said = events.map(({ id }) => id);
    add(payload.place, planned?.label ?? payload.cable, planned?.id, said);
  }
  if (fold.occasion !== 'build') return missing;
  for (const place of fold.seenPlaces()) {
    if (!fold.scope.has(place)) continue;
    for (const { cable } of fold.index.endsAt.get(place) ?? []) {
      const isKnown = byEnd
        .get(`${nameToKey(cable.label)} ${place}`)
        ?.some(({ payload }) => payload.stage !== 'pulled');
      if (isKnown || cable.status !== 'in-use' || !holds(fold, place, cable.id)) continue;
      const looks = fold.stateAt(place).looks.map(({ event }) => event);
      add(place, cable.label, cable.id, looks);
    }
  }
  return missing;
}

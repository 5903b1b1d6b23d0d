// What was decided to amend in the record, with who and why, and the plan with it in. It makes a new document; nothing
// is amended that is not settled, and no jack is given to two cables.
//
// Limits: Amendments change ends, values and heights of units and add cables; jacks, units and racks that the plan does
// not have are added by hand or with the record as the plan.

import type { Cause } from '../causes/cause.ts';
import { type CableId, type PlaceId, placeToParts } from '../plan/identity.ts';
import type { Cable, CableEnd, Plan } from '../plan/model.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Fold } from '../rules/foldView.ts';
import { findContradictions } from '../schedule/build/contradictions.ts';
import {
  type ByHand,
  changeKey,
  isChange,
  type NotTaken,
  type RecordChange,
  recordChangeOf,
  withChange,
} from './amendMore.ts';
import { isSettled } from './decision.ts';
import type { Decisions, SignedDecision } from './decisions.ts';

export interface Amendment {
  cable: CableId;
  label: string;
  end: string;
  /** Place that the plan has; null where it has none. */
  from: PlaceId | null;
  /** Place where it was found; null where its planned one was seen empty. */
  to: PlaceId | null;
  /** Ids of the differences that it answers. */
  differences: string[];
  said: SignedDecision[];
}

/** A change that is no end of a cable. */
interface MoreAmendment {
  change: RecordChange;
  differences: string[];
  said: SignedDecision[];
}

export interface Amendments {
  ends: Amendment[];
  more: MoreAmendment[];
  /** To be amended, and by a person. */
  byHand: { difference: string; said: SignedDecision[]; why: ByHand }[];
}

/** @param causes All that are told now; a story that nobody settled changes no record. */
export function amendmentsOf(
  fold: Pick<Fold, 'index' | 'placesOfUnknown'>,
  differences: readonly Discrepancy[],
  causes: readonly Cause[],
  decisions: Pick<Decisions, 'ofDifference'>,
): Amendments {
  const byId = new Map(differences.map((one) => [one.id, one]));
  const causeOf = new Map(causes.flatMap((cause) => cause.explains.map((id) => [id, cause] as const)));
  const ends = new Map<string, Amendment>();
  const more = new Map<string, MoreAmendment>();
  const byHand: Amendments['byHand'] = [];
  const wanted = differences.flatMap((one) => {
    const { choice, said } = decisions.ofDifference(one);
    return choice === 'amend-record' ? [{ one, said }] : [];
  });
  // Where a cable was found says more than that its own jack is empty.
  const found = new Set(wanted.flatMap(({ one }) => (one.kind === 'wrong-jack' ? [homeKey(one)] : [])));
  for (const { one, said } of wanted) {
    const cause = causeOf.get(one.id);
    const why =
      cause &&
      whyNot(
        cause,
        cause.explains.flatMap((id) => byId.get(id) ?? []),
      );
    const change = why ? null : changeOf(fold, one);
    if (one.kind === 'empty-jack' && found.has(homeKey(one))) continue;
    if (change) {
      ends.set(`${change.cable} ${change.end}`, { ...change, differences: [one.id], said });
      continue;
    }
    const other = why ?? recordChangeOf(fold, one);
    if (!isChange(other)) {
      byHand.push({ difference: one.id, said, why: other });
      continue;
    }
    const key = changeKey(other);
    const before = more.get(key);
    if (before) {
      before.differences.push(one.id);
      before.said.push(...said.filter(({ event }) => !before.said.some((earlier) => earlier.event === event)));
    } else more.set(key, { change: other, differences: [one.id], said: [...said] });
  }
  return {
    ends: [...ends.values()].sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1)),
    more: [...more].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, one]) => one),
    byHand,
  };
}

const keyOf = ({ cable, end }: Amendment) => `${cable} ${end}`;
const homeKey = (one: Discrepancy) =>
  `${one.cable} ${(one.kind === 'wrong-jack' ? one.home : undefined) ?? one.places[0]}`;

function whyNot(cause: Cause, explained: readonly Discrepancy[]): ByHand | null {
  const isNamed = cause.kind === 'other' && !cause.disputed;
  if (!isNamed && !isSettled(cause, explained)) return { type: 'not-settled' };
  // The cable lies where the plan has it and bears another one's number: no plan can say that.
  if (cause.kind === 'labels-exchanged' && cause.by !== 'both-ends') return { type: 'labels-wrong' };
  return null;
}

function changeOf({ index }: Pick<Fold, 'index'>, one: Discrepancy): Omit<Amendment, 'differences' | 'said'> | null {
  const cable = index.cables.get(one.cable ?? '');
  const [place] = one.places;
  if (!cable || place === undefined) return null;
  if (one.kind !== 'wrong-jack' && one.kind !== 'empty-jack') return null;
  const from = one.kind === 'wrong-jack' ? one.home : place;
  const end = cable.ends.find((other) => other.place === from);
  if (!end || from === undefined) return null;
  return { cable: cable.id, label: cable.label, end: end.end, from, to: one.kind === 'wrong-jack' ? place : null };
}

interface AmendedPlan {
  /** The new document; the very plan given when nothing changes. */
  plan: Plan;
  ends: Amendment[];
  more: RecordChange[];
  /** Said in the plan already. */
  done: number;
  left: { amendment: Amendment | RecordChange; why: NotTaken }[];
}

/**
 * @param revision SHA-256 of the plan, which becomes the new plan's parent.
 * The same input gives the same bytes; who and why stay in the record of events.
 */
export function amendedPlan(
  plan: Plan,
  revision: string,
  amendments: readonly Amendment[],
  more: readonly RecordChange[] = [],
): AmendedPlan {
  const result: AmendedPlan = { plan, ends: [], more: [], done: 0, left: [] };
  const jacks = new Map(plan.jacks.map((jack) => [jack.id, jack]));
  const units = new Map(plan.units.map((unit) => [unit.id, unit.label]));
  const wanted = new Map<string, Amendment>();
  const ends = plan.cables.flatMap((cable) => cable.ends.map((end) => ({ key: `${cable.id} ${end.end}`, end, cable })));
  const byKey = new Map(ends.map((one) => [one.key, one]));
  const leave = (amendment: Amendment | RecordChange, why: NotTaken) => result.left.push({ amendment, why });
  for (const one of amendments) {
    const there = byKey.get(keyOf(one));
    if (!there) leave(one, { type: 'no-cable' });
    else if (there.end.place === one.to) result.done += 1;
    else if (there.end.place !== one.from) leave(one, { type: 'elsewhere' });
    else wanted.set(keyOf(one), one);
  }
  leaveTaken();
  const cables = wanted.size === 0 ? plan.cables : plan.cables.map(withEndsMoved);
  const contradictions = wanted.size === 0 ? plan.contradictions : findContradictions(cables, jacks, plan.units);
  let amended: Plan = { ...plan, cables, contradictions };
  for (const change of more) {
    const next = withChange(amended, change);
    if (next.type === 'done') result.done += 1;
    else if (next.type === 'changed') {
      result.more.push(change);
      amended = next.plan;
    } else leave(change, next);
  }
  if (wanted.size + result.more.length > 0) result.plan = { ...amended, parent: revision, origin: 'amendments' };
  return result;

  function withEndsMoved(cable: Cable): Cable {
    return { ...cable, ends: cable.ends.map((end) => moved(cable.id, end)) };
  }
  function moved(id: CableId, end: CableEnd): CableEnd {
    const change = wanted.get(`${id} ${end.end}`);
    if (!change) return end;
    result.ends.push(change);
    if (change.to === null) return { end: end.end, place: null, unit: '', jack: '' };
    const parts = placeToParts(change.to);
    const [unit, jack] = parts.type === 'jack' ? [parts.unit, parts.jack] : ['', ''];
    return { end: end.end, place: change.to, unit: units.get(unit) ?? unit, jack: jacks.get(change.to)?.label ?? jack };
  }

  /** A jack where another end stays takes no second plug; leaving one may keep the next one's jack taken. */
  function leaveTaken(): void {
    for (let again = true; again; ) {
      again = false;
      const kept = new Map<string, string>();
      for (const { key, end, cable } of ends)
        if (end.place !== null && !wanted.has(key) && !jacks.get(end.place)?.mult) kept.set(end.place, cable.label);
      for (const [key, one] of [...wanted]) {
        const other = one.to === null ? undefined : kept.get(one.to);
        if (other === undefined) continue;
        wanted.delete(key);
        leave(one, { type: 'taken', by: other });
        again = true;
      }
    }
  }
}

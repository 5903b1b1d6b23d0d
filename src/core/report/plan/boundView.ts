// The plan an audit is counted over, and what would change in its verdicts over another revision. It tells; the move
// itself is an event that a person records.
import type { AuditId } from '../../plan/identity.ts';
import type { Bound } from '../../record/binding.ts';
import { DISCREPANCY_KINDS, type Discrepancy, type DiscrepancyKind } from '../../rules/discrepancy.ts';
import { type Fold, foldAll } from '../../rules/fold.ts';
import type { CableStatus } from '../../rules/foldView.ts';
import type { Station } from '../../rules/station.ts';
import { pairOrder } from '../../schedule/desk/siteRules.ts';
import { compareLabels } from '../walk/walkOrder.ts';
import { discrepancyToWords, KIND_WORDS } from '../words/words.ts';
import { type RevisionView, revisionView } from './revisionView.ts';

/** More of one kind are counted, not listed. */
export const SHOWN = 60;

interface Named {
  revision: string;
  name: string;
}

export interface BoundView {
  /** What its verdicts are over now; null without a plan. */
  over: Named | null;
  /** Moved there, and its document has not arrived: `over` stands in for it until then. */
  awaited: Named | null;
  /** Where it may be moved: the plan in force, those of a dispute, the one before. */
  targets: (Named & { here: boolean; why: 'in-force' | 'disputed' | 'before' })[];
  /** Who moved it, newest first; `counts` is the move that holds. */
  moves: { author: string; at: number; name: string; counts: boolean }[];
  /** Two phones moved it to different revisions without knowing of each other. */
  disputed: boolean;
  closed: boolean;
  /** What the next move has to name. */
  after: string[];
}

export function boundView(station: Station, audit: AuditId): BoundView | null {
  const entry = station.audit(audit);
  if (!entry) return null;
  const { binding, fold } = entry;
  const force = station.planInForce();
  const nameOf = (revision: string): string => {
    const known = station.planOf(revision)?.plan.name;
    const told = binding.heads.find(({ payload }) => payload.plan === revision)?.payload.name;
    return known ?? told ?? (force?.revision === revision ? force.name : '');
  };
  const over = fold ? fold.revision : null;
  const isAwaited = binding.plan !== null && binding.plan !== over;
  return {
    over: over === null ? null : { revision: over, name: nameOf(over) },
    awaited: isAwaited && binding.plan ? { revision: binding.plan, name: nameOf(binding.plan) } : null,
    targets: targets(),
    moves: binding.heads.map((move: Bound, i) => ({
      author: move.author,
      at: move.at,
      name: move.payload.name,
      counts: i === 0,
    })),
    disputed: binding.disputed,
    closed: fold?.closed != null,
    after: binding.heads.map(({ id }) => id),
  };

  function targets(): BoundView['targets'] {
    const found = new Map<string, BoundView['targets'][number]>();
    const add = (revision: string | null | undefined, why: BoundView['targets'][number]['why']) => {
      if (!revision || found.has(revision) || (revision === binding.plan && why !== 'disputed')) return;
      found.set(revision, { revision, name: nameOf(revision), here: station.planOf(revision) !== null, why });
    };
    if (binding.disputed) for (const { payload } of binding.heads) add(payload.plan, 'disputed');
    add(force?.revision, 'in-force');
    if (!binding.disputed) add(binding.chain[1], 'before');
    return [...found.values()];
  }
}

type CableState = CableStatus['type'] | 'no-cable';

export interface VerdictGroup {
  what: string;
  n: number;
  lines: string[];
}

export interface MoveEffects {
  /** How the two plans differ. */
  changes: RevisionView;
  /** Jacks that are owed a look. */
  places: { before: number; after: number };
  /** Cables whose state changes, by what it was and becomes. */
  cables: VerdictGroup[];
  /** Differences that are there over the new plan alone, and over the old one alone, by kind. */
  appear: VerdictGroup[];
  vanish: VerdictGroup[];
}

const STATE_WORDS: Record<CableState, string> = {
  confirmed: 'as planned at both ends',
  'one-end-seen': 'one end seen',
  'not-seen': 'not seen',
  'not-verified': 'left out or not checked',
  differs: 'differs',
  'no-cable': 'not in the plan',
};

/** Null while the audit or the revision is not here. Folds the audit's events anew over the other revision. */
export function moveEffects(station: Station, audit: AuditId, revision: string): MoveEffects | null {
  const entry = station.audit(audit);
  const index = station.planOf(revision);
  if (!entry?.fold || !index) return null;
  const before = entry.fold;
  const { rules } = station.rules();
  const after = foldAll(index, station.eventsOf(audit), {
    pairOrder: pairOrder(rules),
    airWords: rules.airWords ?? [],
  });
  return {
    changes: revisionView(before.index.plan, after.index.plan, before.revision ?? ''),
    places: { before: before.scope.owed.size, after: after.scope.owed.size },
    cables: cableGroups(before, after),
    appear: onlyIn(after, before),
    vanish: onlyIn(before, after),
  };
}

function cableGroups(before: Fold, after: Fold): VerdictGroup[] {
  const stateIn = (fold: Fold, id: string): CableState =>
    fold.index.cables.has(id) ? fold.statusOf(id).type : 'no-cable';
  const ids = new Set([...before.index.plan.cables, ...after.index.plan.cables].map(({ id }) => id));
  const groups = new Map<string, string[]>();
  for (const id of ids) {
    const [was, is] = [stateIn(before, id), stateIn(after, id)];
    // What nobody looked at tells nothing by coming or going.
    const silent = (state: CableState) => state === 'not-seen' || state === 'no-cable';
    if (was === is || (silent(was) && silent(is))) continue;
    const label = (after.index.cables.get(id) ?? before.index.cables.get(id))?.label || 'no number';
    const what = `Was: ${STATE_WORDS[was]}; becomes: ${STATE_WORDS[is]}`;
    const group = groups.get(what);
    if (group) group.push(label);
    else groups.set(what, [label]);
  }
  return [...groups]
    .map(([what, labels]) => ({ what, n: labels.length, lines: labels.sort(compareLabels).slice(0, SHOWN) }))
    .sort((a, b) => b.n - a.n || (a.what < b.what ? -1 : 1));
}

/** Differences of one fold that the other does not have, in the order of their kinds. */
function onlyIn(fold: Fold, other: Fold): VerdictGroup[] {
  const known = new Set(other.discrepancies().map(({ id }) => id));
  const byKind = new Map<DiscrepancyKind, Discrepancy[]>();
  for (const one of fold.discrepancies()) {
    if (known.has(one.id)) continue;
    const list = byKind.get(one.kind);
    if (list) list.push(one);
    else byKind.set(one.kind, [one]);
  }
  return DISCREPANCY_KINDS.flatMap((kind) => {
    const list = byKind.get(kind);
    if (!list) return [];
    const lines = list.slice(0, SHOWN).map((one) => discrepancyToWords(fold.index, one).line);
    return [{ what: KIND_WORDS[kind], n: list.length, lines }];
  });
}

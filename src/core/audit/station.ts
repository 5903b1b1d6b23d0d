// All audits of one station over the plan revisions they are bound to. An event or a plan may come first; whatever
// waits for its other half is kept, counted and shown.
import { pairOrder, type SiteRules, USUAL_RULES } from '../plan/desk/siteRules.ts';
import type { Plan } from '../plan/model.ts';
import { emptyPlan } from '../plan/model.ts';
import { indexPlan, type PlanIndex } from '../plan/planIndex.ts';
import { type Binding, type Bound, bindingOf } from './binding.ts';
import { type AuditEvent, type EventOf, readEvent } from './events.ts';
import { createFold, type Fold } from './fold.ts';

export interface AuditEntry {
  id: string;
  started: EventOf<'audit-started'>;
  /** Over the revision it is bound to, or over the one before while that has not arrived; null while none has. */
  fold: Fold | null;
  binding: Binding;
}

export interface Station {
  addPlan(revision: string, plan: Plan): void;
  /** Takes event texts; returns the audits they touch and what could not be used. */
  addTexts(texts: readonly string[]): { audits: Set<string>; kept: number; unreadable: number };
  name(): string;
  /** The plan adopted last by the phones' clocks, ties by id. */
  planInForce(): { revision: string; name: string; index: PlanIndex | null } | null;
  /** The rules set last by the phones' clocks, ties by id; the usual ones while nobody set any. */
  rules(): { rules: SiteRules; set: { by: string; at: number } | null };
  planOf(revision: string): PlanIndex | null;
  /**
   * Plan revisions that events name and that have not arrived. With those known to be missing on this phone come the
   * ones that stand in for them.
   */
  plansWanted(missing?: ReadonlySet<string>): string[];
  audits(): AuditEntry[];
  audit(id: string): AuditEntry | null;
  /** Every event of an audit, in the order in which they came. */
  eventsOf(audit: string): readonly AuditEvent[];
  /** Events kept for a newer build. */
  keptCount(): number;
}

export function createStation(): Station {
  const plans = new Map<string, PlanIndex>();
  const nothing = indexPlan(emptyPlan);
  const seen = new Set<string>();
  const kept = new Set<string>();
  const events = new Map<string, AuditEvent[]>();
  const moves = new Map<string, Bound[]>();
  const gone = new Set<string>();
  const started = new Map<string, EventOf<'audit-started'>>();
  const folds = new Map<string, Fold>();
  let pairs = pairOrder(USUAL_RULES);
  const adopted: EventOf<'plan-adopted'>[] = [];
  const named: EventOf<'station-named'>[] = [];
  const ruled: EventOf<'rules-set'>[] = [];
  const latest = <E extends AuditEvent>(list: readonly E[]): E | null =>
    list.reduce<E | null>((a, b) => (!a || b.at > a.at || (b.at === a.at && b.id > a.id) ? b : a), null);

  /** Moves of an audit that were not taken back. */
  function movesOf(audit: string): readonly Bound[] {
    return (moves.get(audit) ?? []).filter(({ id }) => !gone.has(id));
  }

  /** Gives an audit its fold once its start and a plan are here, and a new one when it counts over another plan. */
  function ready(audit: string): void {
    const start = started.get(audit);
    if (!start) return;
    const { chain } = bindingOf(start, movesOf(audit));
    const here = chain.find((plan) => plan === null || plans.has(plan));
    if (here === undefined || folds.get(audit)?.revision === here) return;
    const fold = createFold((here === null ? undefined : plans.get(here)) ?? nothing, here, pairs);
    fold.add(events.get(audit) ?? []);
    folds.set(audit, fold);
  }

  /** Another order of colours makes other groups of pairs: every audit is folded anew. It happens once in a while. */
  function takePairs(): void {
    const next = pairOrder(latest(ruled)?.payload.rules ?? USUAL_RULES);
    if (JSON.stringify(next) === JSON.stringify(pairs)) return;
    pairs = next;
    folds.clear();
    for (const audit of started.keys()) ready(audit);
  }

  function take(event: AuditEvent): void {
    if (event.kind === 'plan-adopted') adopted.push(event);
    if (event.kind === 'station-named') named.push(event);
    if (event.kind === 'rules-set') {
      ruled.push(event);
      takePairs();
    }
    if (!event.audit) return;
    if (event.kind === 'audit-started' && !started.has(event.audit)) started.set(event.audit, event);
    if (event.kind === 'withdrawn') gone.add(event.payload.target.event);
    if (event.kind === 'audit-bound') moves.set(event.audit, [...(moves.get(event.audit) ?? []), event]);
    const list = events.get(event.audit);
    if (list) list.push(event);
    else events.set(event.audit, [event]);
    folds.get(event.audit)?.add([event]);
  }

  const entry = (id: string): AuditEntry | null => {
    const start = started.get(id);
    return start ? { id, started: start, fold: folds.get(id) ?? null, binding: bindingOf(start, movesOf(id)) } : null;
  };

  return {
    addPlan(revision, plan) {
      if (plans.has(revision)) return;
      plans.set(revision, indexPlan(plan));
      for (const audit of started.keys()) ready(audit);
    },
    addTexts(texts) {
      const audits = new Set<string>();
      let unreadable = 0;
      for (const text of texts) {
        const read = readEvent(text);
        if (read.type === 'unreadable') unreadable += 1;
        else if (read.type === 'kept') kept.add(read.envelope.id);
        else if (!seen.has(read.event.id)) {
          seen.add(read.event.id);
          take(read.event);
          if (read.event.audit) audits.add(read.event.audit);
        }
      }
      for (const audit of audits) ready(audit);
      return { audits, kept: kept.size, unreadable };
    },
    name: () => latest(named)?.payload.name ?? '',
    planInForce() {
      const last = latest(adopted);
      if (!last) return null;
      const { revision, name } = last.payload;
      return { revision, name, index: plans.get(revision) ?? null };
    },
    rules() {
      const last = latest(ruled);
      if (!last) return { rules: USUAL_RULES, set: null };
      return { rules: last.payload.rules, set: { by: last.author, at: last.at } };
    },
    planOf: (revision) => plans.get(revision) ?? null,
    plansWanted(missing = new Set()) {
      const wanted = new Set<string>();
      const last = latest(adopted)?.payload.revision;
      if (last !== undefined && !plans.has(last)) wanted.add(last);
      for (const [audit, start] of started) {
        for (const plan of bindingOf(start, movesOf(audit)).chain) {
          if (plan === null || plans.has(plan)) break;
          wanted.add(plan);
          if (!missing.has(plan)) break;
        }
      }
      return [...wanted];
    },
    audits: () =>
      [...started.keys()].map((id) => entry(id)!).sort((a, b) => b.started.at - a.started.at || (a.id < b.id ? -1 : 1)),
    audit: entry,
    eventsOf: (audit) => events.get(audit) ?? [],
    keptCount: () => kept.size,
  };
}

// All audits of one station over the plan revisions they are bound to. An event or a plan may come first; whatever
// waits for its other half is kept, counted and shown.

import type { Plan } from '../plan/model.ts';
import { emptyPlan } from '../plan/model.ts';
import { indexPlan, type PlanIndex } from '../plan/planIndex.ts';
import { type Binding, type Bound, bindingOf } from '../record/binding.ts';
import { type Ahead, createClocks } from '../record/clocks.ts';
import { type AuditEvent, type EventOf, readEvent } from '../record/events.ts';
import { standingOf } from '../record/standing.ts';
import { pairOrder, type SiteRules, USUAL_RULES } from '../schedule/desk/siteRules.ts';
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
  /** The plan adopted last; between phones that did not know of each other's, by their clocks. */
  planInForce(): { revision: string; name: string; index: PlanIndex | null } | null;
  /** The rules set last, likewise; the usual ones while nobody set any. */
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
  /** What stands for the whole station; the next one of a kind names all its heads. */
  standing(): Record<Whole, Stand>;
  /** Entries whose time lies ahead of the present time given, by author, most first. */
  ahead(now: number): Ahead[];
}

/** What there is one of in a station. */
export type Whole = 'plan' | 'name' | 'rules';

export interface Stand {
  /** Those that no other one knew of, the one that stands first. */
  heads: { id: string; by: string; at: number; words: string }[];
  /** Phones that did not know of each other said different things, and nobody has said anything since. */
  disputed: boolean;
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
  const adopted = createSuccession<EventOf<'plan-adopted'>>();
  const named = createSuccession<EventOf<'station-named'>>();
  const ruled = createSuccession<EventOf<'rules-set'>>();
  const clocks = createClocks();

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
    const next = pairOrder(ruled.latest()?.payload.rules ?? USUAL_RULES);
    if (JSON.stringify(next) === JSON.stringify(pairs)) return;
    pairs = next;
    folds.clear();
    for (const audit of started.keys()) ready(audit);
  }

  function take(event: AuditEvent): void {
    clocks.add(event);
    if (event.kind === 'plan-adopted') adopted.add(event);
    if (event.kind === 'station-named') named.add(event);
    if (event.kind === 'rules-set') {
      ruled.add(event);
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
    name: () => named.latest()?.payload.name ?? '',
    planInForce() {
      const last = adopted.latest();
      if (!last) return null;
      const { revision, name } = last.payload;
      return { revision, name, index: plans.get(revision) ?? null };
    },
    rules() {
      const last = ruled.latest();
      if (!last) return { rules: USUAL_RULES, set: null };
      return { rules: last.payload.rules, set: { by: last.author, at: last.at } };
    },
    planOf: (revision) => plans.get(revision) ?? null,
    plansWanted(missing = new Set()) {
      const wanted = new Set<string>();
      const last = adopted.latest()?.payload.revision;
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
    standing: () => ({
      plan: adopted.stand(({ payload }) => [payload.revision, payload.name]),
      name: named.stand(({ payload }) => [payload.name, payload.name]),
      rules: ruled.stand(({ payload }) => [JSON.stringify(payload.rules), '']),
    }),
    ahead: clocks.ahead,
  };
}

/** Events of a kind that each take the place of the ones before. */
function createSuccession<E extends EventOf<'plan-adopted' | 'station-named' | 'rules-set'>>() {
  const all: E[] = [];
  let order: E[] | null = null;
  const heads = (): E[] => {
    order ??= standingOf(all, ({ payload }) => payload.after ?? []).heads;
    return order;
  };
  return {
    add(event: E): void {
      all.push(event);
      order = null;
    },
    latest: (): E | null => heads()[0] ?? null,
    /** @param tell What it says, to compare, and in words. */
    stand(tell: (event: E) => [said: string, words: string]): Stand {
      const told = heads().map((event) => ({ event, said: tell(event) }));
      return {
        heads: told.map(({ event: { id, author, at }, said: [, words] }) => ({ id, by: author, at, words })),
        disputed: new Set(told.map(({ said: [said] }) => said)).size > 1,
      };
    },
  };
}

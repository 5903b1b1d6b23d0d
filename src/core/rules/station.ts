// All audits of one station over the plan revisions they are bound to. An event or a plan may come first; whatever
// waits for its other half is kept, counted and shown.

import type { AuditId } from '../plan/identity.ts';
import type { Plan } from '../plan/model.ts';
import { emptyPlan } from '../plan/model.ts';
import { indexPlan, type PlanIndex } from '../plan/planIndex.ts';
import { type Binding, type Bound, bindingOf } from '../record/binding.ts';
import { type Ahead, createClocks } from '../record/clocks.ts';
import { type AuditEvent, type EventOf, readEvent } from '../record/events.ts';
import { standingOf } from '../record/standing.ts';
import { pairOrder, type SiteRules, USUAL_RULES } from '../schedule/desk/siteRules.ts';
import type { PairColours } from '../trade/partsPairs.ts';
import { createFold, type Fold } from './fold.ts';

interface AuditEntry {
  id: AuditId;
  started: EventOf<'audit-started'>;
  /** Over the revision it is bound to, or over the one before while that has not arrived; null while none has. */
  fold: Fold | null;
  binding: Binding;
}

export interface Station {
  addPlan(revision: string, plan: Plan): void;
  /** Takes event texts; returns the audits they touch and what could not be used. */
  addTexts(texts: readonly string[]): { audits: Set<AuditId>; kept: number; unreadable: number };
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
  audit(id: AuditId): AuditEntry | null;
  /** Every event of an audit, in the order in which they came. */
  eventsOf(audit: AuditId): readonly AuditEvent[];
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

type StationState = {
  plans: Map<string, PlanIndex>;
  nothing: PlanIndex;
  seen: Set<string>;
  kept: Set<string>;
  events: Map<AuditId, AuditEvent[]>;
  moves: Map<AuditId, Bound[]>;
  gone: Set<string>;
  started: Map<AuditId, EventOf<'audit-started'>>;
  folds: Map<AuditId, Fold>;
  pairs: readonly PairColours[];
  airWords: readonly string[];
  adopted: ReturnType<typeof createSuccession<EventOf<'plan-adopted'>>>;
  named: ReturnType<typeof createSuccession<EventOf<'station-named'>>>;
  ruled: ReturnType<typeof createSuccession<EventOf<'rules-set'>>>;
  clocks: ReturnType<typeof createClocks>;
};

export function createStation(): Station {
  const st: StationState = {
    plans: new Map<string, PlanIndex>(),
    nothing: indexPlan(emptyPlan),
    seen: new Set<string>(),
    kept: new Set<string>(),
    events: new Map<AuditId, AuditEvent[]>(),
    moves: new Map<AuditId, Bound[]>(),
    gone: new Set<string>(),
    started: new Map<AuditId, EventOf<'audit-started'>>(),
    folds: new Map<AuditId, Fold>(),
    pairs: pairOrder(USUAL_RULES),
    airWords: [],
    adopted: createSuccession<EventOf<'plan-adopted'>>(),
    named: createSuccession<EventOf<'station-named'>>(),
    ruled: createSuccession<EventOf<'rules-set'>>(),
    clocks: createClocks(),
  };

  return {
    addPlan(revision, plan) {
      if (st.plans.has(revision)) return;
      st.plans.set(revision, indexPlan(plan));
      for (const audit of st.started.keys()) ready(st, audit);
    },
    addTexts: (texts) => addTexts(st, texts),
    name: () => st.named.latest()?.payload.name ?? '',
    planInForce() {
      const last = st.adopted.latest();
      if (!last) return null;
      const { revision, name } = last.payload;
      return { revision, name, index: st.plans.get(revision) ?? null };
    },
    rules() {
      const last = st.ruled.latest();
      return { rules: rulesOf(st), set: last && { by: last.author, at: last.at } };
    },
    planOf: (revision) => st.plans.get(revision) ?? null,
    plansWanted(missing = new Set()) {
      const wanted = new Set<string>();
      const last = st.adopted.latest()?.payload.revision;
      if (last !== undefined && !st.plans.has(last)) wanted.add(last);
      for (const [audit, start] of st.started) {
        for (const plan of bindingOf(start, movesOf(st, audit)).chain) {
          if (plan === null || st.plans.has(plan)) break;
          wanted.add(plan);
          if (!missing.has(plan)) break;
        }
      }
      return [...wanted];
    },
    audits: () =>
      [...st.started.keys()]
        .map((id) => entry(st, id)!)
        .sort((a, b) => b.started.at - a.started.at || (a.id < b.id ? -1 : 1)),
    audit: (id) => entry(st, id),
    eventsOf: (audit) => st.events.get(audit) ?? [],
    keptCount: () => st.kept.size,
    standing: () => ({
      plan: st.adopted.stand(({ payload }) => [payload.revision, payload.name]),
      name: st.named.stand(({ payload }) => [payload.name, payload.name]),
      rules: st.ruled.stand(({ payload }) => [JSON.stringify(payload.rules), '']),
    }),
    ahead: st.clocks.ahead,
  };
}

/** Moves of an audit that were not taken back. */
function movesOf(st: StationState, audit: AuditId): readonly Bound[] {
  return (st.moves.get(audit) ?? []).filter(({ id }) => !st.gone.has(id));
}

/** Gives an audit its fold once its start and a plan are here, and a new one when it counts over another plan. */
function ready(st: StationState, audit: AuditId): void {
  const start = st.started.get(audit);
  if (!start) return;
  const { chain } = bindingOf(start, movesOf(st, audit));
  const here = chain.find((plan) => plan === null || st.plans.has(plan));
  if (here === undefined || st.folds.get(audit)?.revision === here) return;
  const fold = createFold((here === null ? undefined : st.plans.get(here)) ?? st.nothing, here, {
    pairOrder: st.pairs,
    airWords: st.airWords,
  });
  fold.add(st.events.get(audit) ?? []);
  st.folds.set(audit, fold);
}

/** Those set last; words for the air, which builds before did not know, from whoever said them last. */
function rulesOf(st: StationState): SiteRules {
  const rules = st.ruled.latest()?.payload.rules ?? USUAL_RULES;
  if (rules.airWords) return rules;
  const airWords = st.ruled.chain().find(({ payload }) => payload.rules.airWords)?.payload.rules.airWords;
  return airWords ? { ...rules, airWords } : rules;
}

/**
 * Another order of colours makes other groups of pairs, other words for the air make other differences worst: every audit
 * is folded anew. It happens once in a while.
 */
function takeRules(st: StationState): void {
  const rules = rulesOf(st);
  const [pairs, airWords] = [pairOrder(rules), rules.airWords ?? []];
  if (JSON.stringify([pairs, airWords]) === JSON.stringify([st.pairs, st.airWords])) return;
  st.pairs = pairs;
  st.airWords = airWords;
  st.folds.clear();
  for (const audit of st.started.keys()) ready(st, audit);
}

function take(st: StationState, event: AuditEvent): void {
  st.clocks.add(event);
  if (event.kind === 'plan-adopted') st.adopted.add(event);
  if (event.kind === 'station-named') st.named.add(event);
  if (event.kind === 'rules-set') {
    st.ruled.add(event);
    takeRules(st);
  }
  if (!event.audit) return;
  if (event.kind === 'audit-started' && !st.started.has(event.audit)) st.started.set(event.audit, event);
  if (event.kind === 'withdrawn') st.gone.add(event.payload.target.event);
  if (event.kind === 'audit-bound') st.moves.set(event.audit, [...(st.moves.get(event.audit) ?? []), event]);
  const list = st.events.get(event.audit);
  if (list) list.push(event);
  else st.events.set(event.audit, [event]);
  st.folds.get(event.audit)?.add([event]);
}

function entry(st: StationState, id: AuditId): AuditEntry | null {
  const start = st.started.get(id);
  return start
    ? { id, started: start, fold: st.folds.get(id) ?? null, binding: bindingOf(start, movesOf(st, id)) }
    : null;
}

function addTexts(
  st: StationState,
  texts: readonly string[],
): { audits: Set<AuditId>; kept: number; unreadable: number } {
  const audits = new Set<AuditId>();
  let unreadable = 0;
  for (const text of texts) {
    const read = readEvent(text);
    if (read.type === 'unreadable') unreadable += 1;
    else if (read.type === 'kept') st.kept.add(read.envelope.id);
    else if (!st.seen.has(read.event.id)) {
      st.seen.add(read.event.id);
      take(st, read.event);
      if (read.event.audit) audits.add(read.event.audit);
    }
  }
  for (const audit of audits) ready(st, audit);
  return { audits, kept: st.kept.size, unreadable };
}

/** Events of a kind that each take the place of the ones before. */
function createSuccession<E extends EventOf<'plan-adopted' | 'station-named' | 'rules-set'>>() {
  const all: E[] = [];
  let order: ReturnType<typeof standingOf<E>> | null = null;
  const standing = () => {
    order ??= standingOf(all, ({ payload }) => payload.after ?? []);
    return order;
  };
  return {
    add(event: E): void {
      all.push(event);
      order = null;
    },
    latest: (): E | null => standing().heads[0] ?? null,
    /** The one that stands, then those that it took the place of. */
    chain: (): readonly E[] => standing().chain,
    /** @param tell What it says, to compare, and in words. */
    stand(tell: (event: E) => [said: string, words: string]): Stand {
      const told = standing().heads.map((event) => ({ event, said: tell(event) }));
      return {
        heads: told.map(({ event: { id, author, at }, said: [, words] }) => ({ id, by: author, at, words })),
        disputed: new Set(told.map(({ said: [said] }) => said)).size > 1,
      };
    },
  };
}

// All audits of one station over the plan revisions they are bound to. An event or a plan may come first; whatever
// waits for its other half is kept, counted and shown.
import type { Plan } from '../plan/model.ts';
import { emptyPlan } from '../plan/model.ts';
import { indexPlan, type PlanIndex } from '../plan/planIndex.ts';
import { type AuditEvent, type EventOf, readEvent } from './events.ts';
import { createFold, type Fold } from './fold.ts';

export interface AuditEntry {
  id: string;
  started: EventOf<'audit-started'>;
  /** Null while the plan revision it is bound to has not arrived. */
  fold: Fold | null;
}

export interface Station {
  addPlan(revision: string, plan: Plan): void;
  /** Takes event texts; returns the audits they touch and what could not be used. */
  addTexts(texts: readonly string[]): { audits: Set<string>; kept: number; unreadable: number };
  name(): string;
  /** The plan adopted last by the phones' clocks, ties by id. */
  planInForce(): { revision: string; name: string; index: PlanIndex | null } | null;
  planOf(revision: string): PlanIndex | null;
  /** Plan revisions that events name and that have not arrived. */
  plansWanted(): string[];
  audits(): AuditEntry[];
  audit(id: string): AuditEntry | null;
  /** Events kept for a newer build. */
  keptCount(): number;
}

export function createStation(): Station {
  const plans = new Map<string, PlanIndex>();
  const nothing = indexPlan(emptyPlan);
  const seen = new Set<string>();
  const kept = new Set<string>();
  const waiting = new Map<string, AuditEvent[]>();
  const started = new Map<string, EventOf<'audit-started'>>();
  const folds = new Map<string, Fold>();
  const adopted: EventOf<'plan-adopted'>[] = [];
  const named: EventOf<'station-named'>[] = [];
  const latest = <E extends AuditEvent>(list: readonly E[]): E | null =>
    list.reduce<E | null>((a, b) => (!a || b.at > a.at || (b.at === a.at && b.id > a.id) ? b : a), null);

  /** Gives an audit its fold once both its start and its plan are here, and feeds what waited. */
  function ready(audit: string): void {
    if (folds.has(audit)) return;
    const start = started.get(audit);
    if (!start) return;
    const index = start.payload.plan === null ? nothing : plans.get(start.payload.plan);
    if (!index) return;
    const fold = createFold(index);
    fold.add(waiting.get(audit) ?? []);
    waiting.delete(audit);
    folds.set(audit, fold);
  }

  function take(event: AuditEvent): void {
    if (event.kind === 'plan-adopted') adopted.push(event);
    if (event.kind === 'station-named') named.push(event);
    if (!event.audit) return;
    if (event.kind === 'audit-started' && !started.has(event.audit)) started.set(event.audit, event);
    const fold = folds.get(event.audit);
    if (fold) {
      fold.add([event]);
      return;
    }
    const list = waiting.get(event.audit);
    if (list) list.push(event);
    else waiting.set(event.audit, [event]);
  }

  const entry = (id: string): AuditEntry | null => {
    const start = started.get(id);
    return start ? { id, started: start, fold: folds.get(id) ?? null } : null;
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
    planOf: (revision) => plans.get(revision) ?? null,
    plansWanted() {
      const last = latest(adopted)?.payload.revision;
      const bound = [...started.values()].map((event) => event.payload.plan);
      return [...new Set([last, ...bound])].filter((one): one is string => !!one && !plans.has(one));
    },
    audits: () =>
      [...started.keys()].map((id) => entry(id)!).sort((a, b) => b.started.at - a.started.at || (a.id < b.id ? -1 : 1)),
    audit: entry,
    keptCount: () => kept.size,
  };
}

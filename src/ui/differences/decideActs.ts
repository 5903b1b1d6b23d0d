// What is recorded when a person signs: a judgement on a cause or a decision. A reason is asked for where one is due;
// nothing is signed without a name.

import type { CauseKind } from '../../core/causes/cause.ts';
import type { AuditId, EventId } from '../../core/plan/identity.ts';
import { type Choice, needsReason } from '../../core/record/judgedEvents.ts';
import type { DecisionLine, JudgingLine } from '../../core/report/decisionsView.ts';
import type { Recorded, Services } from '../services.ts';

/** What somebody is about to sign. */
export type Act =
  | { type: 'accepted'; judging: JudgingLine; as: CauseKind | null }
  | { type: 'rejected' | 'other'; judging: JudgingLine }
  | { type: 'decided'; line: DecisionLine; choice: Choice };

export interface Typed {
  by: string;
  reason: string;
  /** What it is instead. */
  words: string;
}

export function wantsReason(act: Act): boolean {
  if (act.type === 'decided') return needsReason(act.choice, act.line.usual);
  return act.type !== 'accepted';
}

/** What is missing, field by field; empty when it can be signed. */
export function missing(act: Act, typed: Typed): Partial<Record<keyof Typed, string>> {
  return {
    ...(act.type === 'other' && typed.words.trim() === '' ? { words: 'Type what it is.' } : {}),
    ...(wantsReason(act) && typed.reason.trim() === '' ? { reason: 'Type why. A reason is needed here.' } : {}),
    ...(typed.by.trim() === '' ? { by: 'Type your name. Nothing is signed without one.' } : {}),
  };
}

export function sign(services: Services, audit: AuditId, act: Act, typed: Typed): Promise<Recorded> {
  const reason = typed.reason.trim();
  const signed = { by: typed.by.trim(), ...(reason ? { reason } : {}) };
  if (act.type === 'decided') {
    const { target, about, facts, usual } = act.line;
    return services.record('decided', { target, about, facts, choice: act.choice, usual, ...signed }, { audit });
  }
  const { key, about, evidence } = act.judging;
  const more =
    act.type === 'accepted'
      ? act.as
        ? { as: act.as }
        : {}
      : act.type === 'other'
        ? { words: typed.words.trim() }
        : {};
  return services.record(
    'cause-judged',
    { cause: key, about, judgement: act.type, evidence, ...more, ...signed },
    { audit },
  );
}

export function takeBack(services: Services, audit: AuditId, event: EventId): Promise<Recorded> {
  return services.record('withdrawn', { target: { event }, why: 'undo' }, { audit });
}

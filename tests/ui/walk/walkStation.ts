// A walk over a real record: the app's own flow, answers and fold; only disk, clock and camera are fakes.
import { signal } from '@preact/signals';
import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent, EventKind } from '../../../src/core/record/events.ts';
import { createStation } from '../../../src/core/rules/station.ts';
import type { Services } from '../../../src/ui/services.ts';
import { createFlow } from '../../../src/ui/walk/flow/walkFlow.ts';
import { createAnswers } from '../../../src/workers/answers.ts';

export function walkStation(plan: Plan, begin: AuditEvent) {
  const station = createStation();
  station.addPlan('p', plan);
  const recorded: { id: string; kind: string; payload: unknown }[] = [];
  const drafts = new Map<string, unknown>();
  let time = begin.at;
  const add = (kind: string, payload: unknown, about: { author?: string; audit?: string; log?: string } = {}) => {
    const id = `w${recorded.length + 1}`;
    time += 1000;
    const text = {
      ...begin,
      audit: 'a',
      author: 'me',
      ...about,
      id,
      at: time,
      seq: recorded.length + 1,
      kind,
      payload,
    };
    recorded.push({ id, kind, payload });
    station.addTexts([JSON.stringify(text)]);
    return id;
  };
  station.addTexts([JSON.stringify({ ...begin, audit: 'a' })]);
  const answers = createAnswers(station) as Record<string, (given: never) => unknown>;
  const services = {
    changed: signal(0),
    settings: signal({ author: 'me' }),
    now: () => time,
    log: async () => begin.log,
    ask: async (question: string, given: unknown) => structuredClone(answers[question]?.(given as never)),
    draft: async (key: string) => structuredClone(drafts.get(key)) ?? null,
    saveDraft: (key: string, value: unknown) => drafts.set(key, structuredClone(value)),
    dropDraft: async (key: string) => void drafts.delete(key),
    record: async (kind: EventKind, payload: unknown) => ({ type: 'saved', event: add(kind, payload) }),
  } as unknown as Services;
  const flow = (onPlace: (place: string) => void = () => undefined) => createFlow(services, 'a', onPlace);
  const fold = () => station.audit('a')!.fold!;
  const wait = (ms: number) => {
    time += ms;
  };
  return { flow, fold, add, recorded, services, wait };
}

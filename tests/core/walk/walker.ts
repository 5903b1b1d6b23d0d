// A walk without a page: what the judge decides is recorded as events and folded. For property tests; data invented.

import type { Plan } from '../../../src/core/plan/model.ts';
import type { AuditEvent, Permission, Sighting } from '../../../src/core/record/events.ts';
import { visitingOrder } from '../../../src/core/report/walk/offered.ts';
import { walkView } from '../../../src/core/report/walk/walkView.ts';
import { type Fold, foldAll } from '../../../src/core/rules/fold.ts';
import {
  afterCorrection,
  afterSayable,
  moveToCorrections,
  slipToCorrections,
} from '../../../src/core/walk/corrections.ts';
import { type Decision, decide } from '../../../src/core/walk/decide.ts';
import { type EarlierAnswer, resolveEarlier } from '../../../src/core/walk/earlier.ts';
import { type Act, afterStatement, NEW_MEMORY, undoLast, type WalkMemory } from '../../../src/core/walk/memory.ts';
import type { Statement } from '../../../src/core/walk/question.ts';
import { slipIn } from '../../../src/core/walk/slip.ts';
import { statementsAt } from '../../../src/core/walk/statementsAt.ts';
import { event, started } from '../record/build.ts';

export function walker(plan: Plan, permission: Permission, unit = 'SW1') {
  const events: AuditEvent[] = [started({ permission })];
  let memory: WalkMemory = NEW_MEMORY;
  const fold = (): Fold => foldAll(plan, events);
  const add = (one: AuditEvent): string => {
    events.push(one);
    return one.id;
  };
  const keep = (statement: Statement): string => {
    const id = add(event(statement.kind, statement.payload));
    memory = afterStatement(memory, statement, id, unit, id);
    return id;
  };
  const judge = (sighting: Sighting): Decision =>
    decide(fold(), memory, { place: sighting.places[0]!, words: '', unit }, { type: 'statement', sighting });
  return {
    events,
    fold,
    add,
    keep,
    judge,
    memory: () => memory,
    leave: () => {
      memory = { ...memory, visit: null };
    },
    /** Says it, and answers when it is asked about. */
    say(sighting: Sighting, answer: EarlierAnswer): string {
      const decision = judge(sighting);
      if (decision.type === 'record') return keep(decision.statement);
      if (decision.type !== 'ask' || decision.question.type !== 'earlier') throw new Error(decision.type);
      const { question } = decision;
      return keep({ kind: 'sighting', payload: resolveEarlier(question.sighting, question.earlier, answer) });
    },
    undo(): Act | null {
      const taken = undoLast(memory);
      if (!taken) return null;
      memory = taken.memory;
      if (!taken.act.again) add(event('withdrawn', taken.payload));
      for (const { say, withdraw } of moveToCorrections(taken.act)) {
        const id = add(event(say.kind, say.payload));
        if (withdraw !== null) add(event('withdrawn', { target: { event: withdraw }, why: 'undo' }));
        memory = afterSayable(memory, say, id, id);
      }
      return taken.act;
    },
    slip(place: string) {
      const { face } = walkView(fold(), 'a', place)!;
      return slipIn(visitingOrder(face), place, { id: unit, label: unit }, memory, null);
    },
    /** "Me": everything of the run is said where it belongs. */
    moveSlip(slip: NonNullable<ReturnType<typeof slipIn>>): void {
      const places = slip.moves.flatMap(({ from, to }) => [from.place, to.place]);
      const standing = statementsAt(fold(), [...new Set(places)]);
      let before: Act | null = null;
      for (const step of slipToCorrections(slip, { id: unit, label: unit }, memory, standing)) {
        const id = add(event(step.say.kind, step.say.payload));
        if (step.withdraw !== null) add(event('withdrawn', { target: { event: step.withdraw }, why: 'misread' }));
        const after = afterCorrection(memory, slip, { id: unit, label: unit }, step, id, before, id);
        before = after.act;
        memory = after.memory;
      }
    },
  };
}

/** All that a fold says of these places and of the audit, without the names of the events. */
export function facts(fold: Fold, places: readonly string[]) {
  return {
    states: places.map((place) => {
      const { type, plugs, joinedTo, followed } = fold.stateAt(place);
      return { place, type, plugs, joinedTo, followed, readings: fold.readingsAt(place).map(({ cable }) => cable) };
    }),
    differences: fold.discrepancies().map(({ id }) => id),
  };
}

/** The same, with which looks stand and what became of the others. */
export function wholeFacts(fold: Fold, places: readonly string[]) {
  return { ...facts(fold, places), looks: places.map((place) => fold.looks.standing(place)) };
}

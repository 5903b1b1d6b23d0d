// From what is said to what is asked or recorded: each input goes to the judge (core/walk/decide.ts) once, and what it
// decides is done here, one arm for each. No rule of its own.
import { batch } from '@preact/signals';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { type Decision, type Remembered, unjudged, type WalkInput } from '../../../core/walk/decide.ts';
import { afterStatement } from '../../../core/walk/memory.ts';
import type { Statement } from '../../../core/walk/question.ts';
import type { Recorded } from '../../services.ts';
import { LINES, notSavedToWords, statementToWords } from '../walkWords.ts';
import type { WalkParts } from './walkParts.ts';
import type { WalkShown } from './walkShown.ts';

export type WalkSaying = ReturnType<typeof createSaying>;

export function createSaying(parts: WalkParts, shown: WalkShown) {
  const { services, audit, memory, sheet, line, remember } = parts;

  async function judge(input: WalkInput, at: WalkView): Promise<Decision> {
    const { paused, visit, first, notNow, worked } = memory.value;
    const remembered: Remembered = { paused, visit, first: first ?? null, notNow: notNow ?? [], worked: worked ?? [] };
    const { place, jack } = at.current;
    const here = { place, words: `${at.unit.label} ${jack}`, unit: at.unit.id };
    try {
      return await services.ask('judge', { audit, memory: remembered, here, input });
    } catch {
      if (input.type !== 'statement') line.value = LINES.noAnswer;
      return unjudged(input);
    }
  }

  /** @returns whether something was recorded. */
  async function say(input: WalkInput): Promise<boolean> {
    const at = parts.shown();
    if (!at) return false;
    const decision = await judge(input, at);
    switch (decision.type) {
      case 'nothing':
        return false;
      case 'ask':
        sheet.value = decision.question;
        return false;
      case 'hold':
        // A later one takes the place of one that waits already.
        batch(() => {
          line.value = null;
          remember({ ...memory.value, first: { text: decision.text, by: decision.by } });
        });
        return false;
      case 'again': {
        const { place } = decision;
        await shown.follow({ memory: memory.value, at, places: [place], where: 'nothing' });
        return false;
      }
      case 'record':
        return keep(decision.statement);
    }
  }

  async function keep(statement: Statement): Promise<boolean> {
    const at = parts.shown();
    if (!at) return false;
    if (sheet.value !== null) sheet.value = null;
    const result = await record(statement);
    if (result.event === '') {
      line.value = notSavedToWords(result);
      return false;
    }
    const words = statementToWords(statement);
    const next = afterStatement(memory.value, statement, result.event, at.unit.id, words);
    const places = statement.kind === 'sighting' ? statement.payload.places : [statement.payload.place];
    await shown.follow({ memory: next, at, places, where: result.type });
    return true;
  }

  function record(statement: Statement): Promise<Recorded> {
    switch (statement.kind) {
      case 'sighting':
        return services.record('sighting', statement.payload, { audit });
      case 'label-put':
        return services.record('label-put', statement.payload, { audit });
      case 'label-off':
        return services.record('label-off', statement.payload, { audit });
    }
  }

  return { say, keep };
}

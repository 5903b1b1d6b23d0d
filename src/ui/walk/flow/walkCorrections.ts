// Putting right what the auditor said: the slip of a jack and undo. It records what core/walk/corrections.ts says is
// needed, step by step, and remembers each step, so that a page that ends in the middle can be undone.
import type { EventId } from '../../../core/plan/identity.ts';
import type { EventKind, Payload } from '../../../core/record/events.ts';
import {
  afterCorrection,
  afterSayable,
  moveToCorrections,
  type Sayable,
  slipToCorrections,
} from '../../../core/walk/corrections.ts';
import { type Act, undoLast } from '../../../core/walk/memory.ts';
import type { Slip } from '../../../core/walk/slip.ts';
import { sayableToWords, slipToWords } from '../walkWords.ts';
import type { WalkParts } from './walkParts.ts';

interface Unit {
  id: string;
  label: string;
}

export function createCorrections({ services, audit, memory, remember }: WalkParts) {
  const record = async <K extends EventKind>(kind: K, payload: Payload<K>): Promise<string> =>
    (await services.record(kind, payload, { audit })).event;
  const withdraw = (event: EventId, why: 'undo' | 'misread') => record('withdrawn', { target: { event }, why });
  // Kind and payload are of one statement, which the types of a union cannot follow through a call.
  const sayIt = ({ kind, payload }: Sayable) => record(kind, payload as Payload<typeof kind>);

  /** "Me": moves what was said, with what hangs on it. @returns whether anything was moved. */
  async function moveSlip(slip: Slip, unit: Unit): Promise<boolean> {
    const places = [...new Set(slip.moves.flatMap(({ from, to }) => [from.place, to.place]))];
    const standing = await services.ask('statementsAt', { audit, places });
    let moved: Act | null = null;
    for (const step of slipToCorrections(slip, unit, memory.value, standing)) {
      const event = await sayIt(step.say);
      if (event === '') continue;
      if (step.withdraw !== null) await withdraw(step.withdraw, 'misread');
      const after = afterCorrection(memory.value, slip, unit, step, event, moved, slipToWords(slip));
      moved = after.act;
      remember(after.memory);
    }
    return moved !== null;
  }

  /** Takes the last act back; null when there is none. */
  async function undo(): Promise<Act | null> {
    const taken = undoLast(memory.value);
    if (!taken) return null;
    const { act } = taken;
    if (!act.again) {
      await record('withdrawn', taken.payload);
      for (const event of act.also ?? []) await withdraw(event, 'undo');
      remember(taken.memory);
      return act;
    }
    remember(taken.memory);
    for (const step of moveToCorrections(act)) {
      const event = await sayIt(step.say);
      if (step.withdraw !== null) await withdraw(step.withdraw, 'undo');
      if (event !== '') remember(afterSayable(memory.value, step.say, event, sayableToWords(step.say)));
    }
    return act;
  }

  return { moveSlip, undo };
}

// Questions that outlive a restart: what was said and waits for an answer is asked about again, or it would be lost; the
// auditor's slip is worked out anew. It answers nothing and records nothing.
import type { AuditId } from '../../../core/plan/identity.ts';
import { unitOf } from '../../../core/plan/identity.ts';
import { afterSighting, lastAct, type WalkMemory } from '../../../core/walk/memory.ts';
import type { OwedQuestion } from '../../../core/walk/question.ts';
import type { Services } from '../../services.ts';
import type { Sheet } from '../sheets/walkSheet.ts';
import { statementToWords } from '../walkWords.ts';
import type { WalkParts } from './walkParts.ts';

function isOwed(open: Sheet): open is OwedQuestion {
  return open.type === 'candidates' || open.type === 'near' || open.type === 'unlikely' || open.type === 'earlier';
}

/** Writes such a question down for as long as it is open. */
export function keepAsked({ sheet, memory, remember }: WalkParts): void {
  sheet.subscribe((open) => {
    const asked = open && isOwed(open) ? open : null;
    if ((memory.peek().asked ?? null) !== asked) remember({ ...memory.peek(), asked });
  });
}

/** The page may end between a statement's writing and its draft: what this phone said since then can be undone too. */
export async function withCutOff(services: Services, audit: AuditId, before: WalkMemory): Promise<WalkMemory> {
  const log = await services.log();
  // A slip that was being put right is one act already: its parts are no statements of their own.
  if (log === null || before.at === 0 || lastAct(before)?.kind === 'slip') return before;
  const known = new Set(before.acts.flatMap(({ event, also = [] }) => [event, ...also]));
  const since = await services.ask('saidSince', { audit, log, since: before.at }).catch(() => []);
  return since
    .filter(({ event }) => !known.has(event))
    .reduce((memory, { event, ...said }) => {
      const payload = { ...said, basis: 'seen' as const };
      const words = statementToWords({ kind: 'sighting', payload });
      return afterSighting(memory, event, payload, unitOf(said.places[0] ?? ''), words);
    }, before);
}

/** Where the walk is taken up: a question that is still owed is about the jack that was in hand. */
export function placeToResume(before: WalkMemory, wanted: string | null): string | null {
  return before.asked ? before.place : (wanted ?? before.place);
}

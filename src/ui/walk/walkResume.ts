// Questions that outlive a restart: what was said and waits for an answer is asked about again, or it would be lost; the
// auditor's slip is worked out anew. It answers nothing and records nothing.
import type { Signal } from '@preact/signals';
import { type AuditId, isJack, unitOf } from '../../core/plan/identity.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import type { Services } from '../services.ts';
import type { OwedSheet, Sheet } from './sheets/walkSheet.ts';
import { afterSighting, type WalkMemory } from './walkState.ts';

const OWED: ReadonlySet<Sheet['type']> = new Set<OwedSheet['type']>(['candidates', 'unlikely', 'earlier']);
const isOwed = (sheet: Sheet): sheet is OwedSheet => OWED.has(sheet.type);

/** Writes such a question down for as long as it is open. */
export function keepAsked(
  sheet: Signal<Sheet | null>,
  memory: Signal<WalkMemory>,
  remember: (next: WalkMemory) => void,
): void {
  sheet.subscribe((open) => {
    const asked = open && isOwed(open) ? open : null;
    if ((memory.peek().asked ?? null) !== asked) remember({ ...memory.peek(), asked });
  });
}

/** The page may end between a statement's writing and its draft: what this phone said since then can be undone too. */
export async function withCutOff(services: Services, audit: AuditId, before: WalkMemory): Promise<WalkMemory> {
  const log = await services.log();
  // A slip that was being put right is one act already: its parts are no statements of their own.
  if (log === null || before.at === 0 || before.acts.at(-1)?.kind === 'slip') return before;
  const known = new Set(before.acts.flatMap(({ event, also = [] }) => [event, ...also]));
  const since = await services.ask('saidSince', { audit, log, since: before.at }).catch(() => []);
  return since
    .filter(({ event }) => !known.has(event))
    .reduce((memory, { event, ...said }) => {
      return afterSighting(memory, event, { ...said, basis: 'seen' }, unitOf(said.places[0] ?? ''));
    }, before);
}

/** Where the walk is taken up: a question that is still owed is about the jack that was in hand. */
export function placeToResume(before: WalkMemory, wanted: string | null): string | null {
  return before.asked ? before.place : (wanted ?? before.place);
}

/** The unit of the last single statement, for the question whether it was the hand or the cables. */
export async function lastSaid(
  services: Services,
  audit: AuditId,
  { acts }: WalkMemory,
): Promise<{ at: string; there: WalkView } | null> {
  const last = acts.at(-1);
  const [at = ''] = last?.places ?? [];
  if (last?.kind !== 'sighting' || last.places.length !== 1 || !isJack(at)) return null;
  const there = await services.ask('walk', { audit, place: at });
  return there && { at, there };
}

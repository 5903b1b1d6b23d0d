// Sentences of a station's home screen: what waits to be sent, how far an audit is. No markup and no state here.
import type { AuditSummary } from '../../core/report/walk/homeView.ts';
import type { SyncState } from '../../sync/ports.ts';
import type { Unsent } from '../services.ts';
import { bytesToWords, count, list, timeToWords } from '../words.ts';
import { unsentCount } from './homeWords.ts';

/** "Not sent: 12 checks, 4 photos and 1 note. 3.1 MB, kept on this phone." */
export function unsentToWords(unsent: Unsent): string {
  if (unsentCount(unsent) === 0) return 'Nothing waits to be sent.';
  const kept = unsent.bytes > 0 ? `${bytesToWords(unsent.bytes)}, kept on this phone.` : 'Kept on this phone.';
  return `Not sent: ${list(unsentParts(unsent))}. ${kept}`;
}

/** What waits, kind by kind; what is nought is left out. */
function unsentParts({ statements, photos, notes, other, refused }: Unsent): string[] {
  return [
    ...(statements > 0 ? [count(statements, 'check')] : []),
    ...(photos > 0 ? [count(photos, 'photo')] : []),
    ...(notes > 0 ? [count(notes, 'note')] : []),
    ...(other > 0 ? [count(other, 'other entry', 'other entries')] : []),
    ...(refused > 0 ? [count(refused, 'item held back', 'items held back')] : []),
  ];
}

export function syncToWords(state: SyncState, now: number): string {
  switch (state.type) {
    case 'unpaired':
      return 'Not paired with a server; nothing leaves this phone.';
    case 'idle':
      return state.lastAt === null ? 'Not sent yet.' : `Last sent ${timeToWords(state.lastAt, now)}.`;
    case 'sending':
      return 'Sending.';
    case 'waiting':
      return 'Waiting for the server; the app tries again by itself.';
    case 'stopped':
      return state.why === 'needs-pairing'
        ? 'The server wants this phone paired again.'
        : 'One side needs a newer version.';
  }
}

/** The unit of work of the occasion: a jack where nothing is known, an end where a cable is. */
export function doneToWords(audit: AuditSummary): string {
  if (audit.closed) return 'closed';
  const { coverage } = audit;
  if (!coverage) return 'waits for its plan';
  return `${coverage.seen} of ${count(coverage.places, 'jack')}`;
}

/** The number that the counts are of. */
export function totalOf({ jacks, coverage }: AuditSummary): string {
  return jacks.length > 0 ? count(jacks.length, 'jack') : count(coverage?.cables ?? 0, 'cable');
}

/** Pairs of number and word, so that the screen can set the numbers apart; what is nought is left out. */
export function countsOf(audit: AuditSummary): { n: number; words: string; red?: boolean }[] {
  const { coverage: c } = audit;
  if (!c) return [];
  if (audit.jacks.length > 0) {
    const of = (wanted: AuditSummary['jacks'][number]['state']) =>
      audit.jacks.filter(({ state }) => state === wanted).length;
    const [asPlanned, differ, undecided, left] = [of('as-planned'), of('differs'), of('undecided'), of('not-seen')];
    // An inherited place has little to be compared with: what counts is what was said.
    if (audit.occasion === 'inherit') {
      return [
        { n: audit.jacks.length - left, words: 'looked at' },
        { n: differ, words: 'differ', red: true },
        { n: undecided, words: 'to check again' },
        { n: left, words: 'not looked at' },
      ].filter(({ n }) => n > 0);
    }
    return [
      { n: asPlanned, words: 'as planned' },
      { n: differ, words: 'differ', red: true },
      { n: undecided, words: 'to check again' },
      { n: of('said'), words: 'looked at, nothing to compare with' },
      { n: left, words: 'not looked at' },
    ].filter(({ n }) => n > 0);
  }
  return [
    { n: c.bothEnds, words: 'seen at both ends' },
    { n: c.oneEnd, words: 'seen at one end' },
    { n: c.differ, words: 'differ', red: true },
    { n: c.notSeen, words: 'not seen' },
    { n: c.cablesNotVerified, words: 'left out' },
  ].filter(({ n }) => n > 0);
}

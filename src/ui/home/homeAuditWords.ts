// Sentences of a station's home screen: what waits to be sent, how far an audit is. No markup and no state here.
import type { AuditSummary } from '../../core/report/walk/homeView.ts';
import type { SyncState } from '../../sync/ports.ts';
import type { Unsent } from '../services.ts';
import { bytesToWords, count, timeToWords } from '../words.ts';
import { unsentCount } from './homeWords.ts';

/** "Not sent: 12 statements, 4 photos, 1 note. 3.1 MB, kept on this phone." */
export function unsentToWords(unsent: Unsent): string {
  if (unsentCount(unsent) === 0) return 'Nothing waits to be sent.';
  const parts = [
    unsent.statements > 0 && count(unsent.statements, 'statement'),
    unsent.photos > 0 && count(unsent.photos, 'photo'),
    unsent.notes > 0 && count(unsent.notes, 'note'),
    unsent.other > 0 && count(unsent.other, 'other entry', 'other entries'),
    unsent.refused > 0 && `${unsent.refused} held back`,
  ].filter(Boolean);
  const bytes = unsent.bytes > 0 ? `${bytesToWords(unsent.bytes)}, k` : 'K';
  return `Not sent: ${parts.join(', ')}. ${bytes}ept on this phone.`;
}

export function syncToWords(state: SyncState, now: number): string {
  switch (state.type) {
    case 'unpaired':
      return 'No server is paired; nothing leaves this phone.';
    case 'idle':
      return state.lastAt === null ? 'Not sent yet.' : `Last sent ${timeToWords(state.lastAt, now)}.`;
    case 'sending':
      return 'Sending.';
    case 'waiting':
      return 'Waiting for the server; it tries again by itself.';
    case 'stopped':
      return state.why === 'needs-pairing' ? 'The server asks to be paired again.' : 'One side needs a newer version.';
  }
}

/** The unit of work of the occasion: a jack where nothing is known, an end where a cable is. */
export function doneToWords(audit: AuditSummary): string {
  if (audit.closed) return 'closed';
  const { coverage } = audit;
  if (!coverage) return 'waits for its plan';
  return `${coverage.seen} of ${count(coverage.places, 'jack')}`;
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
      { n: of('said'), words: 'looked at, nothing to agree with' },
      { n: left, words: 'not looked at' },
    ].filter(({ n }) => n > 0);
  }
  return [
    { n: c.bothEnds, words: 'seen at both' },
    { n: c.oneEnd, words: 'at one' },
    { n: c.differ, words: 'differ', red: true },
    { n: c.notSeen, words: 'not seen' },
    { n: c.cablesNotVerified, words: 'left out' },
  ].filter(({ n }) => n > 0);
}

// Sentences about what is sent and received: what waits, since when and why, what is held back, what came with faults.
// No markup and no state here.
import type { LaneState, SyncState } from '../../sync/ports.ts';
import { unsentCount } from '../home/homeWords.ts';
import { waitingToReason } from '../messages.ts';
import type { HeldItem, Sending, Unsent } from '../services.ts';
import { bytesToWords, count, list } from '../words.ts';

/** `at` writes a time. */
type At = (time: number) => string;

/** What waits, by what it waits for. */
export function waitLines(unsent: Unsent, state: SyncState, sending: Sending | null, at: At): string[] {
  if (unsentCount(unsent) === 0) return ['Nothing waits to be sent.'];
  const entries = [
    unsent.statements > 0 && count(unsent.statements, 'check'),
    unsent.notes > 0 && count(unsent.notes, 'note'),
    unsent.other > 0 && count(unsent.other, 'other entry', 'other entries'),
  ].filter((part) => part !== false);
  const photos = count(unsent.photos, 'photo');
  const { since, details } = sending ?? { since: { entries: null, documents: null }, details: null };
  const lines: string[] = [];
  if (entries.length > 0) {
    const from = since.entries ?? since.documents;
    lines.push(notSent(list(entries), from, laneToReason(state, details?.lanes.entries), at));
  }
  if (unsent.photos > 0) {
    if (details?.photosHeld) lines.push(`${count(unsent.photos, 'photo waits', 'photos wait')} for a good network.`);
    else lines.push(notSent(photos, since.documents ?? since.entries, laneToReason(state, details?.lanes.up), at));
  }
  if (unsent.bytes > 0) lines.push(`${bytesToWords(unsent.bytes)}, kept on this phone.`);
  if (unsent.refused > 0) lines.push(`${count(unsent.refused, 'item')} held back; the reasons are below.`);
  return lines;
}

function notSent(what: string, since: number | null, reason: string | null, at: At): string {
  const from = since === null ? '' : ` since ${at(since)}`;
  return `${what} not sent${from}${reason === null ? '.' : `: ${reason}.`}`;
}

function laneToReason(state: SyncState, lane: LaneState | undefined): string | null {
  if (state.type === 'unpaired') return 'no server is paired';
  if (state.type === 'stopped')
    return state.why === 'needs-pairing'
      ? 'the server wants this phone paired again'
      : 'app and server are different versions';
  if (!lane) return null;
  switch (lane.type) {
    case 'busy':
      return 'being sent now';
    case 'waiting':
      return waitingToReason(lane.why);
    case 'idle':
      return null;
  }
}

/** How soon what others record is here. */
export function receiveLine(sending: Sending | null): string | null {
  const live = sending?.details.live ?? null;
  if (live === null) return null;
  return live
    ? 'What others record arrives at once.'
    : 'The app asks every few seconds for what others record, and once a minute when nothing happens.';
}

const TELL_SKEW_MS = 300_000;

/** Null within five minutes, which is as good as the measurement need be. */
export function clockLine(ahead: number | null): string | null {
  if (ahead === null || Math.abs(ahead) <= TELL_SKEW_MS) return null;
  return `This phone’s clock is ${span(Math.abs(ahead))} ${ahead > 0 ? 'ahead of' : 'behind'} the server’s.`;
}

function span(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  if (minutes < 120) return count(minutes, 'minute');
  const hours = Math.round(minutes / 60);
  return hours < 48 ? count(hours, 'hour') : count(Math.round(hours / 24), 'day');
}

const WHAT: Record<HeldItem['what'], string> = {
  statement: 'Check',
  photo: 'Photo',
  note: 'Note',
  other: 'Entry',
};

export function heldToWords(item: HeldItem, at: At): { title: string; second: string } {
  const said =
    item.sentence ??
    (item.why === 'same-id-other-text'
      ? 'The server has a different entry with the same id; both are kept.'
      : `Not taken: ${item.why}.`);
  const next = item.dueAt === null ? '' : ` The app tries again ${at(item.dueAt)}.`;
  return { title: `${WHAT[item.what]} of ${at(item.at)}`, second: said + next };
}

/** What came with faults, one sentence each. */
export function faultLines(sending: Sending, at: At): string[] {
  const { untaken, missed, misnamed } = sending;
  return [
    ...untaken.map(
      ({ hash, why, dueAt }) =>
        `An entry from another phone could not be read in (${why}). It is kept as ${short(hash)} and tried again ${at(dueAt)}.`,
    ),
    ...missed.map(({ document, why, dueAt }) => {
      const again = dueAt === null ? '' : ` The app asks again ${at(dueAt)}.`;
      return `${MISSED[why]}: ${short(document)}.${again}`;
    }),
    ...misnamed.map((name) => `An entry names a document “${name}”, which cannot be the name of one.`),
  ];
}

const MISSED: Record<Sending['missed'][number]['why'], string> = {
  'not-there': 'A plan, photo or note is not on the server yet; the phone that made it has to send it',
  differs: 'A plan, photo or note on the server is damaged; a phone that still has it sends it again',
  failed: 'The server has a fault with a plan, photo or note',
};

/** Enough of a hash to tell one from another on the phone. */
function short(hash: string): string {
  return hash.slice(0, 10);
}

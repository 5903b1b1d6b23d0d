// The walk's memory as it is kept on this phone between two visits of the page, and what other screens add to it.
import type { AuditId, EventId, PlaceId } from '../../core/plan/identity.ts';
import { type Act, afterAct, NEW_MEMORY, type WalkMemory } from '../../core/walk/memory.ts';
import type { KeyOf } from '../drafts/draftNames.ts';
import { WALK } from '../drafts/walkDrafts.ts';
import type { Services } from '../services.ts';
import type { Sheet } from './sheets/walkSheet.ts';

type Drafts = Pick<Services, 'draft' | 'saveDraft'>;

let first: Sheet | null = null;

/** The walk that comes next begins with this sheet; a page that is loaded anew in between has forgotten it. */
export function openFirst(sheet: Sheet): void {
  first = sheet;
}

/** What the walk begins with, once. */
export function takeFirst(): Sheet | null {
  const sheet = first;
  first = null;
  return sheet;
}

/** Name of the draft that a walk is kept under. */
export function walkDraft(audit: AuditId): KeyOf<'walk'> {
  return `walk:${audit}`;
}

export async function readMemory(services: Pick<Services, 'draft'>, audit: AuditId): Promise<WalkMemory> {
  return (await services.draft(walkDraft(audit), WALK)) ?? NEW_MEMORY;
}

/** Something said on another screen of this audit: the walk's undo takes it back like the rest. */
export async function noteAct(services: Drafts, audit: AuditId, event: EventId, words: string): Promise<void> {
  const kept = await readMemory(services, audit);
  const act: Act = { event, kind: 'described', places: [], back: kept.place ?? '', words };
  await services.saveDraft(walkDraft(audit), afterAct(kept, act), WALK);
}

/** Hands were at work at these places: looks of before are another visit's, and the next ones are as left. */
export async function noteWork(services: Services, audit: AuditId, places: readonly PlaceId[]): Promise<void> {
  const kept = await readMemory(services, audit);
  const worked = [...new Set([...(kept.worked ?? []), ...places])];
  await services.saveDraft(walkDraft(audit), { ...kept, visit: null, worked }, WALK);
}

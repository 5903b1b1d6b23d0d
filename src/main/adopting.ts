// Puts a plan into force: its document first, then the event that says so. Loaded when somebody adopts one.

import type { Plan } from '../core/plan/model.ts';
import type { Payload } from '../core/record/events.ts';
import type { KeptServices } from '../ui/drafts/draftServices.ts';
import type { Recorded, SheetSession } from '../ui/services.ts';
import { keepSheetPlan } from './planSheets.ts';
import type { ServiceParts } from './serviceParts.ts';

interface AdoptParts extends Pick<ServiceParts, 'store' | 'commands'> {
  drafts: Pick<KeptServices, 'draft' | 'saveDraft'>;
  adopted: (payload: Payload<'plan-adopted'>) => Promise<Recorded>;
}

export async function adoptPlan({ commands, adopted }: AdoptParts, plan: Plan): Promise<Recorded> {
  const bytes = new TextEncoder().encode(JSON.stringify(plan));
  const kept = await commands.storeDocument(bytes, 'application/json');
  if (kept.type !== 'stored') return { type: 'not-saved', event: '', why: kept.type };
  return adopted({ revision: kept.sha, name: plan.name, bytes: bytes.length });
}

export async function adoptSheet(parts: AdoptParts, session: SheetSession, name?: string): Promise<Recorded> {
  const made = await session.document(name);
  if (!made) return { type: 'not-saved', event: '', why: 'the reader has ended' };
  const kept = await keepSheetPlan(parts, made);
  if (kept.type !== 'kept') return { type: 'not-saved', event: '', why: kept.why };
  const { revision, bytes } = kept;
  return parts.adopted({ revision, name: kept.name, bytes });
}

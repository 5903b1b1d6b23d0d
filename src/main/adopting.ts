// Puts a plan into force: its document first, then the event that says so. Loaded when somebody adopts one.

import type { KeptServices } from '../ui/drafts/draftServices.ts';
import type { Recorded, Services, SheetSession } from '../ui/services.ts';
import { keepSheetPlan } from './planSheets.ts';
import type { ServiceParts } from './serviceParts.ts';

interface AdoptParts extends Pick<ServiceParts, 'store' | 'commands'> {
  drafts: Pick<KeptServices, 'draft' | 'saveDraft'>;
  recordEvent: Services['record'];
}

export function createAdopting(parts: AdoptParts): Pick<Services, 'adoptPlan' | 'adoptSheet' | 'openDemo'> {
  const { store, commands, recordEvent } = parts;

  async function adoptSheet(session: SheetSession, name?: string): Promise<Recorded> {
    const made = await session.document(name);
    if (!made) return { type: 'not-saved', event: '', why: 'the reader has ended' };
    const kept = await keepSheetPlan(parts, made);
    if (kept.type !== 'kept') return { type: 'not-saved', event: '', why: kept.why };
    const { revision, bytes } = kept;
    return recordEvent('plan-adopted', { revision, name: kept.name, bytes });
  }

  return {
    async adoptPlan(plan) {
      const bytes = new TextEncoder().encode(JSON.stringify(plan));
      const kept = await commands.storeDocument(bytes, 'application/json');
      if (kept.type !== 'stored') return { type: 'not-saved', event: '', why: kept.type };
      return recordEvent('plan-adopted', { revision: kept.sha, name: plan.name, bytes: bytes.length });
    },
    adoptSheet,
    openDemo: async () =>
      (await import('./demo.ts')).openDemo(store, (named) => recordEvent('station-named', named), adoptSheet),
  };
}

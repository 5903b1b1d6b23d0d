// Schemas of the ids of identity.ts. Any text is one as it is read: what it names is for whoever looks it up.
import * as z from 'zod/mini';
import type { AuditId, CableId, EventId, PlaceId, RackId, UnitId } from './identity.ts';

export const placeId: z.ZodMiniType<PlaceId> = z.string();
export const unitId: z.ZodMiniType<UnitId> = z.string();
export const rackId: z.ZodMiniType<RackId> = z.string();
export const cableId: z.ZodMiniType<CableId> = z.string();
export const eventId: z.ZodMiniType<EventId> = z.string();
export const auditId: z.ZodMiniType<AuditId> = z.string();

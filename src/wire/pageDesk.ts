// The questions of the desk check: what the plan in force gets wrong by itself, and the station's own rules.

import type { AuditId, PlaceId } from '../core/plan/identity.ts';
import type { DeskView } from '../core/report/plan/deskView.ts';
import type { SiteRules } from '../core/schedule/desk/siteRules.ts';

export interface DeskQuestions {
  /** Null where there is no plan on this phone. */
  desk: { ask: Record<never, never>; answer: DeskView | null };
  /** What the contacts of an RJ45 that carries audio are by the station's table; null for any other jack. */
  audioPins: { ask: { audit: AuditId; place: PlaceId }; answer: { words: string; own: boolean } | null };
  /** `set` is null while nobody set any: then the rules are the usual ones. */
  siteRules: { ask: Record<never, never>; answer: { rules: SiteRules; set: { by: string; at: number } | null } };
}

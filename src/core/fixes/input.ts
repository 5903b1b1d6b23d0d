// What the list of work is made from, and why a part of it has to wait.

import type { Cause } from '../causes/cause.ts';
import type { PlaceId } from '../plan/identity.ts';
import type { Permission } from '../record/events.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Decision } from './decision.ts';
import type { Rank } from './order.ts';

/** An agreed time in which more may be done, at some places or everywhere. */
export interface FixWindow {
  name: string;
  permission: Permission;
  has: (place: PlaceId) => boolean;
}

export interface FixInput {
  differences: readonly Discrepancy[];
  causes: readonly Cause[];
  decisions: readonly Decision[];
  /** Ids of differences on which people are at odds: nothing is done until they agree. */
  disputed?: ReadonlySet<string>;
  /** What may be done now. */
  permission: Permission;
  window?: FixWindow | null;
  rank: Rank;
}

/** Why hands stay off for now. */
export type Waits =
  | { type: 'permission'; needs: Permission }
  | { type: 'left-out'; reason: string }
  | { type: 'hazard'; id: string };

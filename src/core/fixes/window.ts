// The window in which more may be done than now, as people agreed it. What is allowed in it is allowed only then; the
// list of work says so at every step that needs it.
import type { EventId } from '../plan/identity.ts';
import type { EventOf } from '../record/events.ts';
import { scopeOf } from '../record/scope.ts';
import type { Fold } from '../rules/foldView.ts';
import type { FixWindow } from './input.ts';

interface AgreedWindow extends FixWindow {
  /** Event that undo takes back. */
  event: EventId;
  /** Rack ids and room names; none of either means every place of the plan. */
  scope: EventOf<'window-agreed'>['payload']['scope'];
  by: string;
  author: string;
  at: number;
}

/** The one agreed last that stands, by the phones' clocks, ties by id; null when none is. */
export function agreedWindow(fold: Fold): AgreedWindow | null {
  const last = fold.of('window-agreed').at(-1);
  if (!last || !fold.started) return null;
  const { name, permission, scope, by } = last.payload;
  const places = scopeOf(fold.index, { ...fold.started.payload, scope, exclusions: [] });
  return { event: last.id, name, permission, scope, by, author: last.author, at: last.at, has: places.has };
}

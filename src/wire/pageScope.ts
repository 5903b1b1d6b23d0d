// What the page asks about an audit's scope while it runs: what may be added, and what was.
import type { ScopeMore } from '../core/report/walk/scopeView.ts';

export interface ScopeQuestions {
  /** @param text Part of the name of a rack, room or unit; blank for all. */
  scopeMore: { ask: { audit: string; text: string }; answer: ScopeMore | null };
}

// The desk check: what a schedule gets wrong by itself, worst first, each with its rows. It mends nothing and asks
// nobody; which rules are the station's own is data.

import type { Plan } from '../../plan/model.ts';
import { indexPlan, type PlanIndex } from '../../plan/planIndex.ts';
import { SEVERITIES } from '../../trade/kinds.ts';
import { deskCables } from './cables.ts';
import { DESK_KINDS, type DeskFinding } from './finding.ts';
import { type SiteRules, USUAL_RULES } from './siteRules.ts';
import { deskUnits } from './units.ts';

/** @param given A plan, or its index when the caller holds one already. */
export function deskCheck(given: Plan | PlanIndex, rules: SiteRules = USUAL_RULES): DeskFinding[] {
  const index = 'plan' in given ? given : indexPlan(given);
  const found = [...deskCables(index, rules), ...deskUnits(index, rules)];
  const rank = (one: DeskFinding) => [
    SEVERITIES.indexOf(one.severity),
    DESK_KINDS.indexOf(one.kind),
    one.rows[0]?.row ?? 0,
  ];
  return found
    .map((one) => ({ one, rank: rank(one) }))
    .sort((a, b) => a.rank.map((n, i) => n - b.rank[i]!).find((n) => n !== 0) ?? (a.one.line < b.one.line ? -1 : 1))
    .map(({ one }) => one);
}

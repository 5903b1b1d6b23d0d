// One difference between plan and floor: its kinds, severities and identity. How each is derived stands in
// placeDiscrepancies.ts, cableDiscrepancies.ts and settingDiscrepancies.ts.

export const DISCREPANCY_KINDS = [
  'wrong-jack',
  'empty-jack',
  'not-installed',
  'unplanned-cable',
  'unlabelled-cable',
  'illegible-label',
  'duplicate-label',
  'one-end-labelled',
  'ends-differ',
  'ends-reversed',
  'old-label-left',
  'not-landed',
  'abandoned-cable',
  'spare-in-use',
  'signal-clash',
  'direction-clash',
  'left-right-swapped',
  'polarity-reversed',
  'wrong-connector',
  'wrong-cable-type',
  'undeclared-adapter',
  'unit-moved',
  'unit-replaced',
  'unit-unlisted',
  'unit-not-found',
  'setting-differs',
  'phantom-hazard',
  'duplicate-channel',
  'duplicate-address',
  'hazard-seen',
  'sightings-conflict',
  'plan-contradiction',
] as const;
export type DiscrepancyKind = (typeof DISCREPANCY_KINDS)[number];

/** Worst first. `undecided` is treated as on-air until one look settles it, so it stands beside it. */
export const SEVERITIES = ['people', 'equipment', 'on-air', 'undecided', 'service', 'record'] as const;
export type Severity = (typeof SEVERITIES)[number];

export interface Discrepancy {
  /** Made of kind, places and labels, so that the same facts give the same id on every phone. */
  id: string;
  kind: DiscrepancyKind;
  severity: Severity;
  /** Place ids, the one where it shows first. */
  places: string[];
  /** Labels as read or as planned, the found one first. */
  labels: string[];
  /** Ids of the events it rests on. */
  evidence: string[];
  /** Facts for the words: what the plan has here, where the found thing belongs, and the like. */
  detail: Record<string, string>;
}

export function makeDiscrepancy(
  kind: DiscrepancyKind,
  severity: Severity,
  places: string[],
  labels: string[],
  evidence: Iterable<string>,
  detail: Record<string, string> = {},
): Discrepancy {
  const id = [kind, [...places].sort().join('+'), [...labels].sort().join('+')].join(' ');
  return { id, kind, severity, places, labels, evidence: [...new Set(evidence)].sort(), detail };
}

/** Orders worst first, then by place and id, the same on every phone. */
export function compareDiscrepancies(a: Discrepancy, b: Discrepancy): number {
  const bySeverity = SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity);
  if (bySeverity !== 0) return bySeverity;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

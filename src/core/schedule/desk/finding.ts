// One thing that a schedule gets wrong by itself, before anybody walks: its kinds, and what a finding carries.

import type { Origin } from '../../plan/model.ts';
import type { Severity } from '../../trade/kinds.ts';

export const DESK_KINDS = [
  'number-repeated',
  'jack-claimed-twice',
  'both-ends-one-jack',
  'end-missing',
  'unit-unlisted',
  'direction-clash',
  'connector-clash',
  'signal-clash',
  'left-without-right',
  'left-right-order',
  'units-overlap',
  'unit-outside-rack',
  'length-over-limit',
  'address-wrong',
  'address-outside',
  'subnets-overlap',
  'duplicate-address',
  'duplicate-hardware-address',
  'duplicate-serial',
  'duplicate-channel',
  'channel-off-rule',
] as const;
export type DeskKind = (typeof DESK_KINDS)[number];

export interface DeskFinding {
  kind: DeskKind;
  severity: Severity;
  /** One sentence: what, where, and against what. */
  line: string;
  /** Rows of the sheet that say it, each once. */
  rows: Origin[];
  labels: string[];
  /** Places in words. */
  places: string[];
}

interface DeskAbout {
  rows: readonly (Origin | undefined)[];
  labels?: readonly string[];
  places?: readonly string[];
}

export function makeFinding(kind: DeskKind, severity: Severity, line: string, about: DeskAbout): DeskFinding {
  const rows = new Map<string, Origin>();
  for (const row of about.rows) if (row) rows.set(`${row.sheet} ${row.row}`, row);
  return {
    kind,
    severity,
    line,
    rows: [...rows.values()].sort((a, b) => (a.sheet < b.sheet ? -1 : a.sheet > b.sheet ? 1 : a.row - b.row)),
    labels: [...(about.labels ?? [])],
    places: [...(about.places ?? [])],
  };
}

/** Groups of two and more that share a key; items without one stand outside. */
export function shared<T>(items: readonly T[], keyOf: (item: T) => string | null): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    if (key === null) continue;
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  for (const [key, group] of groups) if (group.length < 2) groups.delete(key);
  return groups;
}

// The sheet that a plan was read from, with what the plan says now in its own cells: changed cells and struck rows are
// marked and noted, new rows stand at the end. What it wrote is read again, and what its columns cannot say is told.
import { revisionView } from '../../report/revisionView.ts';
import { findColumns } from '../columns.ts';
import type { Cable, Plan } from '../model.ts';
import { readTables } from '../readTables.ts';
import type { Table } from '../readTypes.ts';
import { keepIds } from '../revisions/keepIds.ts';
import type { PlanSheets } from './planToSheets.ts';
import { amendListRows } from './redlineLists.ts';
import { type Attempt, type CableList, createLines, flatten, linesToTable, rowKey } from './redlineRows.ts';
import { AMENDED } from './struck.ts';

/** A row is first amended cell by cell, then written whole, then whole with the unit's own place. */
const ATTEMPTS = [0, 1, 2] as const;

/** Null where the tables are no schedule, or one in columns of our own. */
export function redline(plan: Plan, tables: readonly Table[]): PlanSheets | null {
  const read = readTables(tables, { name: plan.name });
  if (read.type !== 'plan' || read.ids) return null;
  const source = read.plan;
  const lists = tables.map((table): CableList | null => {
    const columns = findColumns(table.rows);
    return columns?.kind === 'cables' ? { table, columns } : null;
  });
  const base = keepIds(plan, source, '');
  const [was, is] = [byRow(base.cables), byRow(plan.cables)];
  const said = createLines({ base, plan });
  const lines = lists.map((list) => list && said.begin(list, was, is));
  const home = lists.findIndex((list) => list !== null);
  const placed = new Set(
    lines.flatMap((list) => flatten(list ?? [])).flatMap((line) => line.cables.map(({ id }) => id)),
  );
  const added = plan.cables.filter(({ id }) => !placed.has(id));
  if (home >= 0) said.append(lines[home] ?? [], lists[home] as CableList, added);
  const others = amendListRows(tables, base, plan);

  let out = compose();
  for (const attempt of ATTEMPTS) {
    const wrong = said.wrongLines(out, lines);
    if (wrong.length === 0 || attempt === 2) break;
    for (const line of wrong) said.rewrite(line, (attempt + 1) as Attempt);
    out = compose();
  }
  const back = readTables(out, { name: plan.name });
  const left =
    back.type === 'plan' ? leftOver(plan, keepIds(plan, back.plan, '')) : ['The sheet could not be read again.'];
  const amended = out.reduce((sum, table) => sum + (table.marks?.size ?? 0), 0);
  return { tables: out, form: 'source', amended, left };

  function compose(): (Table & { marks: Map<string, 'changed' | 'removed'> })[] {
    return tables.map((table, i) => {
      const own = lines[i];
      const list = lists[i];
      if (own && list) return linesToTable(list, own, AMENDED);
      return others.get(table) ?? { ...table, marks: new Map() };
    });
  }
}

function byRow(cables: readonly Cable[]): Map<string, Cable[]> {
  const rows = new Map<string, Cable[]>();
  for (const cable of cables) {
    if (!cable.origin) continue;
    const key = rowKey(cable.origin.sheet, cable.origin.row);
    const list = rows.get(key);
    if (list) list.push(cable);
    else rows.set(key, [cable]);
  }
  return rows;
}

/** What the plan says and the written sheet does not, in words; other words for the same thing are none. */
function leftOver(plan: Plan, back: Plan): string[] {
  const { groups } = revisionView(withoutImplied(back, plan), withoutImplied(plan, back), '');
  return groups
    .filter(({ kind }) => kind !== 'written')
    .flatMap(({ item, n, lines }) => [
      ...lines.map(({ what, words }) => `${item} ${what}: ${words}`),
      ...(n > lines.length ? [`${n - lines.length} more of this kind: ${item}`] : []),
    ]);
}

/** What cables alone imply comes and goes with them. */
function withoutImplied(plan: Plan, other: Plan): Plan {
  const keep = <T extends { id: string; implied: boolean }>(list: readonly T[], others: readonly T[]): T[] => {
    const known = new Set(others.map(({ id }) => id));
    return list.filter(({ id, implied }) => !implied || known.has(id));
  };
  return {
    ...plan,
    racks: keep(plan.racks, other.racks),
    units: keep(plan.units, other.units),
    jacks: keep(plan.jacks, other.jacks),
  };
}

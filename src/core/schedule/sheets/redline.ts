// The sheet that a plan was read from, with what the plan says now in its own cells: changed cells and struck rows are
// marked and noted, new rows stand at the end. What it wrote is read again, and what its columns cannot say is told.
//
// Limits: At 25,000 rows this takes two readings, up to four where rows are read otherwise than meant. A row of several
// cables is taken apart once one of them is amended: the first stays, the others stand at the end.
import type { Cable, Plan } from '../../plan/model.ts';
import type { ReadOptions } from '../readOptions.ts';
import { readTables } from '../readTables.ts';
import { keepIds } from '../revisions/keepIds.ts';
import type { Table } from '../rows/readTypes.ts';
import { columnsOf, NO_ANSWERS, type SheetAnswers } from '../sheetAnswers.ts';
import { splitLists } from '../splitLists.ts';
import type { PlanSheets, SheetsLeft } from './planSheets.ts';
import { answersAfter, type Layout, layOut, type Written } from './redlineLayout.ts';
import { amendListRows } from './redlineLists.ts';
import { type Attempt, type CableList, createLines, flatten, type Line, linesToTable, rowKey } from './redlineRows.ts';
import { AMENDED } from './struck.ts';

/** A row is first amended cell by cell, then written whole, then whole with the unit's own place. */
const ATTEMPTS: readonly Attempt[] = [1, 2];

export interface RedlineHow {
  /** What somebody settled when the sheet was brought in: read so, it is no amendment. */
  answers?: SheetAnswers | undefined;
  /** What of the station's rules the reading of its sheets goes by. */
  rules?: Pick<ReadOptions, 'numbering' | 'signalWords'> | undefined;
  /** Hears which share of the work is done, from 0 to 1. */
  told?: ((share: number) => void) | undefined;
}

/** Null where the tables are no schedule, one in columns of our own, or one with lists beside each other. */
export function redline(plan: Plan, tables: readonly Table[], how: RedlineHow = {}): PlanSheets | null {
  const { answers = NO_ANSWERS, told = () => undefined } = how;
  const rows = tables.reduce((sum, table) => sum + table.rows.length, 1);
  /** Each reading is a share of the work. */
  const reading = (given: readonly Table[], said: SheetAnswers, from: number, to: number) =>
    readTables(given, {
      ...how.rules,
      name: plan.name,
      answers: said,
      told: (row) => told(from + ((to - from) * Math.min(row, rows)) / rows),
    });
  const read = reading(tables, answers, 0, 0.4);
  if (read.type !== 'plan' || read.ids) return null;
  const parts = splitLists(tables);
  if (parts.some(({ beside }) => beside)) return null;
  const lists = parts.map((table): CableList | null => {
    const columns = columnsOf(table, answers);
    return columns?.kind === 'cables' ? { table, columns } : null;
  });
  const base = keepIds(plan, read.plan, '');
  told(0.5);
  const [was, is] = [byRow(base.cables), byRow(plan.cables)];
  const said = createLines({ base, plan });
  const lines = lists.map((list) => list && said.begin(list, was, is));
  const home = lists.findIndex((list) => list !== null);
  const placed = new Set(
    lines.flatMap((list) => flatten(list ?? [])).flatMap((line) => line.cables.map(({ id }) => id)),
  );
  const added = plan.cables.filter(({ id }) => !placed.has(id));
  const homeList = lists[home];
  if (homeList) said.append(lines[home] ?? [], homeList, added);
  const others = amendListRows(parts, base, plan, answers);

  let out = compose();
  // Where nothing was written, it reads as it did.
  let back = isWritten() ? readBack(0.5, 0.7) : read.plan;
  for (const [i, attempt] of ATTEMPTS.entries()) {
    const wrong = back ? said.wrongLines(back, out.rowOf, lines) : [];
    if (wrong.filter((line) => said.rewrite(line, attempt)).length === 0) break;
    out = compose();
    back = readBack(0.7 + i / 10, 0.8 + i / 10);
  }
  told(0.9);
  const left: SheetsLeft = back ? toLeft(plan, keepIds(plan, back, '')) : { type: 'unread' };
  const amended = out.sheets.reduce((sum, table) => sum + table.marks.size, 0);
  told(1);
  return { tables: out.sheets, form: 'source', amended, left };

  function compose(): Layout {
    const written = parts.map((table, i): Written => {
      const [own, list] = [lines[i], lists[i]];
      if (own && list) return linesToTable(list, own, AMENDED);
      return others.get(table) ?? { ...table, marks: new Map(), header: null };
    });
    return layOut(parts, written);
  }

  function isWritten(): boolean {
    const isMarked = out.sheets.some(({ marks }) => marks.size > 0);
    return isMarked || added.length > 0 || lines.some((list) => list?.some(isApart));
  }

  function readBack(from: number, to: number): Plan | null {
    const result = reading(out.sheets, answersAfter(answers, out), from, to);
    return result.type === 'plan' ? result.plan : null;
  }
}

const isApart = ({ more }: Line) => more.length > 0;

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

/** The sheet as it reads and the plan, without what one of them implies alone. */
function toLeft(plan: Plan, back: Plan): SheetsLeft {
  return { type: 'read', sheet: withoutImplied(back, plan), plan: withoutImplied(plan, back) };
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

// Lists of units, jacks, racks and circuits with the plan's values in their own cells: settings, units, circuits.
// Cable lists belong to redlineRows.ts; what has no column here is told by whoever reads the sheet again.
import type { Circuit, Origin, Plan, Unit } from '../../plan/model.ts';
import { settingKey } from '../../plan/planIndex.ts';
import { circuitsByKey } from '../revisions/matchCircuits.ts';
import type { Table } from '../rows/readTypes.ts';
import { columnsOf, holdsRow, type SheetAnswers } from '../sheetAnswers.ts';
import type { Written } from './redlineLayout.ts';
import { AMENDED, STRUCK } from './struck.ts';

type Amended = Written & { marks: Map<string, 'changed' | 'removed'> };

/** Amended copies of the tables that are no cable lists, by their source. */
export function amendListRows(
  tables: readonly Table[],
  base: Plan,
  plan: Plan,
  answers: SheetAnswers,
): Map<Table, Amended> {
  const out = new Map<Table, Amended>();
  const racks = new Map(plan.racks.map((rack) => [rack.id, rack.label]));
  const [oldCircuits, circuits] = circuitsByKey(base, plan);
  // New circuits stand once, below the first list of them.
  const added = [...circuits].flatMap(([key, circuit]) => (oldCircuits.has(key) ? [] : [circuit]));
  for (const table of tables) {
    const columns = columnsOf(table, answers);
    if (!columns || columns.kind === 'cables') continue;
    const rows = table.rows.map((row) => [...row]);
    const marks: Amended['marks'] = new Map();
    const notes = new Map<number, string[]>();
    const put = (row: number | undefined, meaning: string, text: string) => {
      const column = columns.at.get(meaning);
      const index = (row ?? 0) - (table.firstRow ?? 1);
      const cells = rows[index];
      if (column === undefined || !cells) return;
      while (cells.length <= column) cells.push('');
      notes.set(index, [...(notes.get(index) ?? []), `${columns.titles[column]}: was ${cells[column] || 'blank'}`]);
      cells[column] = text;
      marks.set(`${index},${column}`, 'changed');
    };
    const putChanged = (row: number | undefined, before: Record<string, string>, after: Record<string, string>) => {
      for (const [meaning, text] of Object.entries(after)) if (before[meaning] !== text) put(row, meaning, text);
    };
    const strike = (row: number | undefined) => {
      const index = (row ?? 0) - (table.firstRow ?? 1);
      rows[index]?.forEach((cell, column) => {
        if (cell !== '') marks.set(`${index},${column}`, 'removed');
      });
      notes.set(index, [`${STRUCK}no longer in the plan`]);
    };
    const append = (cells: Record<string, string>) => {
      const row = columns.titles.map(() => '');
      for (const [meaning, text] of Object.entries(cells)) {
        const column = columns.at.get(meaning);
        if (column === undefined || text === '') continue;
        row[column] = text;
        marks.set(`${rows.length},${column}`, 'changed');
      }
      notes.set(rows.length, ['Added']);
      rows.push(row);
    };
    const here = (origin: Origin | undefined) => origin !== undefined && holdsRow(table, origin.sheet, origin.row);
    if (columns.kind === 'units') {
      const old = new Map(base.units.map((unit) => [unit.id, unit]));
      for (const unit of plan.units) {
        const was = old.get(unit.id);
        if (!was || !here(was.origin)) continue;
        const shown = (one: Unit) => ({ ...unitCells(one), rack: racks.get(one.rack ?? '') ?? one.rack ?? '' });
        putChanged(was.origin?.row, shown(was), shown(unit));
      }
    }
    if (columns.kind === 'circuits') {
      for (const [key, was] of oldCircuits) {
        if (!here(was.origin)) continue;
        const is = circuits.get(key);
        if (!is) strike(was.origin?.row);
        else putChanged(was.origin?.row, circuitCells(was), circuitCells(is));
      }
      for (const circuit of added.splice(0)) append(circuitCells(circuit));
    }
    const now = new Map(plan.settings.map((setting) => [settingKey(setting), setting.value]));
    for (const setting of base.settings) {
      const value = now.get(settingKey(setting));
      if (here(setting.origin) && value !== undefined && value !== setting.value)
        put(setting.origin?.row, setting.name, value);
    }
    out.set(table, withNotes({ ...table, rows, marks, header: columns.header }, columns.header, notes));
  }
  return out;
}

function unitCells(unit: Unit): Record<string, string> {
  return {
    unit: unit.label,
    room: unit.room ?? '',
    u: String(unit.u ?? ''),
    height: String(unit.heightU),
    mounted: unit.mounted,
    description: unit.description ?? '',
    serial: unit.serial ?? '',
    mac: unit.mac ?? '',
  };
}

function circuitCells({ name, role, carrier = '', hops, notes = '' }: Circuit): Record<string, string> {
  return { circuit: name, role: role ?? '', carrier, hops: hops.join(', '), notes };
}

function withNotes(table: Amended, header: number, notes: ReadonlyMap<number, readonly string[]>): Amended {
  if (notes.size === 0) return table;
  const width = table.rows.reduce((most, row) => Math.max(most, row.length), 0);
  const rows = table.rows.map((row, i) => {
    const text = i === header ? AMENDED : notes.get(i)?.join('; ');
    if (text === undefined) return row;
    return [...row, ...Array.from({ length: width - row.length }, () => ''), text];
  });
  return { ...table, rows };
}

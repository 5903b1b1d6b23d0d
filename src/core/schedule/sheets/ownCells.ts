// Cells of our own sheets to values: rows by their titles, ids, words and numbers. Word for word, nothing is guessed;
// what is no value of its column is asked about.
import { nameToKey } from '../../trade/names.ts';
import type { Question, Table } from '../rows/readTypes.ts';

export interface OwnRow {
  sheet: string;
  row: number;
  get(title: string): string;
  /** What the cell says cannot be taken; `said` where it is more than that cell. */
  ask(title: string, question: string, said?: string): void;
}

export function toRows(table: Table, titles: readonly string[], questions: Question[]): OwnRow[] {
  return table.rows.slice(1).flatMap((cells, i): OwnRow[] => {
    if (cells.every((cell) => cell === '')) return [];
    const map = new Map(titles.map((title, column) => [title, cells[column] ?? '']));
    const get = (title: string) => map.get(title) ?? '';
    const at = { sheet: table.name, row: (table.firstRow ?? 1) + i + 1 };
    return [
      {
        ...at,
        get,
        ask: (column, question, said = get(column)) =>
          questions.push({ kind: 'own-sheet', ...at, column, said, question }),
      },
    ];
  });
}

/** A row without an id is new: it gets one by its name. Two rows never share one. */
export function withIds(
  rows: readonly OwnRow[],
  name: (row: OwnRow) => string,
  blank = '',
): [id: string, row: OwnRow][] {
  const given = new Set(rows.map((row) => row.get('Id')));
  const taken = new Set<string>();
  return rows.map((row) => {
    const wanted = row.get('Id') || name(row) || blank;
    const isNew = row.get('Id') === '';
    let id = wanted;
    for (let n = 2; taken.has(id) || (isNew && given.has(id)); n += 1) id = `${wanted}~${n}`;
    taken.add(id);
    return [id, row];
  });
}

/** By the label as it stands, else by its key, else by the id; null where two could be meant. */
export function byName(items: readonly { id: string; label: string }[]): (name: string) => string | null {
  const exact = new Map<string, string | null>();
  const keys = new Map<string, string | null>();
  const ids = new Set(items.map(({ id }) => id));
  for (const { id, label } of items) {
    exact.set(label, exact.has(label) ? null : id);
    const key = nameToKey(label);
    keys.set(key, keys.has(key) ? null : id);
  }
  return (name) => exact.get(name) ?? keys.get(nameToKey(name)) ?? (ids.has(name) ? name : null);
}

/** The id that a row bears, unless the name beside it was changed since: then whatever bears that name. */
export function follow(
  row: OwnRow,
  title: string,
  idTitle: string,
  labels: ReadonlyMap<string, string>,
  toId: (name: string) => string,
): string {
  const [name, id] = [row.get(title), row.get(idTitle)];
  if (id !== '' && (labels.get(id) ?? id) === name) return id;
  return name === '' ? '' : toId(name);
}

export function toLabels(items: readonly { id: string; label: string }[]): Map<string, string> {
  return new Map(items.map(({ id, label }) => [id, label]));
}

export function optional<K extends string>(key: K, value: string): { [P in K]?: string } {
  return value === '' ? {} : ({ [key]: value } as { [P in K]: string });
}

type Schema<T> = { safeParse(value: unknown): { success: true; data: T } | { success: false } };

/** The value of a cell of few possible words; nothing for a blank one, and for another word, which is asked about. */
export function wordOf<T>(row: OwnRow, title: string, schema: Schema<T>): T | undefined {
  const text = row.get(title).trim().toLowerCase();
  if (text === '') return undefined;
  const read = schema.safeParse(text);
  if (read.success) return read.data;
  row.ask(title, 'This column does not know this word. What does it mean?');
  return undefined;
}

/** @returns the word under its key, or nothing at all: an absent field is not one without a value. */
export function optionalWord<K extends string, T>(
  key: K,
  row: OwnRow,
  title: string,
  schema: Schema<T>,
): { [P in K]?: T } {
  const word = wordOf(row, title, schema);
  return word === undefined ? {} : ({ [key]: word } as { [P in K]: T });
}

export function isYes(row: OwnRow, title: string): boolean {
  const text = row.get(title).trim();
  if (/^(y|yes|x|1|true)$/i.test(text)) return true;
  if (text !== '' && !/^(n|no|0|false|-)$/i.test(text)) row.ask(title, 'Is this yes or no?');
  return false;
}

export function toNumber(row: OwnRow, title: string, otherwise: number): number {
  const text = row.get(title).trim();
  const value = Number(text);
  if (text !== '' && Number.isFinite(value)) return value;
  if (text !== '') row.ask(title, 'Which number is this?');
  return otherwise;
}

/** What is written down for the machine: a list of tails, faces, further ends. */
export function toJson<T>(row: OwnRow, title: string, schema: Schema<T>, otherwise: T): T {
  if (row.get(title) === '') return otherwise;
  try {
    const read = schema.safeParse(JSON.parse(row.get(title)));
    if (read.success) return read.data;
  } catch {
    // Asked about below.
  }
  row.ask(title, 'This was changed and is left out. Put it back as it was, or leave the cell blank.');
  return otherwise;
}

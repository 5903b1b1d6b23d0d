// How a measurement is taken and how the table is printed. Nothing here knows what is measured.

export interface Row {
  name: string;
  /** Size of the data, in words. */
  size: string;
  value: number;
  unit: string;
  /** What the value is held against: a number fixed beforehand, or a peer measured in the same run. */
  against: { type: 'goal' | 'peer'; name: string; value: number } | null;
  /** Value to `against`; a goal is held when it is at most 1. Null where the row only counts. */
  ratio: number | null;
}

const RUNS = 7;

/** Median of seven runs after two to warm up, in milliseconds. `prepare` is outside the timed region. */
export async function measure<T>(prepare: () => T, run: (given: T) => unknown): Promise<number> {
  const times: number[] = [];
  for (let i = -2; i < RUNS; i++) {
    const given = prepare();
    const from = performance.now();
    await run(given);
    if (i >= 0) times.push(performance.now() - from);
  }
  return median(times);
}

export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}

/** @param share Of 100; so many of the values are at most the answer. */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil((sorted.length * share) / 100) - 1)] ?? 0;
}

export function against(row: Omit<Row, 'ratio' | 'against'>, type: 'goal' | 'peer', name: string, value: number): Row {
  return { ...row, against: { type, name, value }, ratio: row.value / value };
}

export function counted(row: Omit<Row, 'ratio' | 'against'>): Row {
  return { ...row, against: null, ratio: null };
}

/** A goal missed; a peer that is faster is no fault, only a measure. */
export function isOver(row: Row): boolean {
  return row.against?.type === 'goal' && row.ratio !== null && row.ratio > 1;
}

function number(value: number): string {
  if (value === 0) return '0';
  return value >= 100 ? value.toFixed(0) : value >= 1 ? value.toFixed(2) : value.toPrecision(3);
}

export function rowsToTable(rows: readonly Row[]): string {
  const cells = rows.map((row) => [
    row.name,
    row.size,
    `${number(row.value)} ${row.unit}`,
    row.against ? `${row.against.type}: ${row.against.name}` : '',
    row.against ? `${number(row.against.value)} ${row.unit}` : '',
    row.ratio === null ? '' : `${number(row.ratio)} ×`,
    isOver(row) ? 'OVER' : row.against?.type === 'goal' ? 'held' : '',
  ]);
  const all = [['what', 'size', 'measured', 'held against', '', 'ratio', ''], ...cells];
  const widths = all[0]!.map((_, i) => Math.max(...all.map((row) => row[i]!.length)));
  return all
    .map((row) => row.map((cell, i) => (i >= 2 && i !== 3 ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!))))
    .map((row) => row.join('  ').trimEnd())
    .join('\n');
}

/** As a thumb or an eye takes its time, in ms; part of what is measured, never a wait for something to be done. */
export function pause(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, ms));
}

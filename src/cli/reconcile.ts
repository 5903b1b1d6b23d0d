// `npm run reconcile -- --plan FILE [--sightings FILE] [--json]`: the same core without a screen. Standard output is
// JSON and nothing else; what went wrong is said on standard error with row and column.

import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import type { Plan } from '../core/plan/model.ts';
import { readTables } from '../core/plan/readTables.ts';
import { foldSightings, foldToOutput, type SightingGiven } from '../core/report/reconcileOutput.ts';
import { fileToName, readSheetFile } from '../files/sheet.ts';
import type { SheetError } from '../files/sheetError.ts';
import { readSightingsCsv } from '../files/sightingsCsv.ts';

export interface Streams {
  out: (text: string) => void;
  err: (text: string) => void;
}

const USAGE = 'Usage: npm run reconcile -- --plan FILE [--sightings FILE] [--json]';
const toConsole: Streams = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};

/** @returns 0 nothing differs, 1 something differs, 2 unusable input. */
export async function main(argv: string[], streams: Streams = toConsole): Promise<number> {
  const fail = (sentence: string): number => {
    streams.err(`${sentence}\n`);
    return 2;
  };
  let given: { plan?: string | undefined; sightings?: string | undefined };
  try {
    // --json is taken and changes nothing: the output is JSON always.
    const options = { plan: { type: 'string' }, sightings: { type: 'string' }, json: { type: 'boolean' } } as const;
    given = parseArgs({ args: argv, options }).values;
  } catch (error) {
    return fail(`${error instanceof Error ? error.message : error}\n${USAGE}`);
  }
  if (!given.plan) return fail(`No plan given.\n${USAGE}`);
  const plan = await readPlan(given.plan);
  if (typeof plan === 'string') return fail(plan);
  const sightings = given.sightings ? await readSightings(given.sightings, plan) : [];
  if (typeof sightings === 'string') return fail(sightings);
  const output = foldToOutput(foldSightings(plan, sightings));
  streams.out(`${JSON.stringify(output, null, 2)}\n`);
  return output.discrepancies.length > 0 ? 1 : 0;
}

async function readBytes(file: string): Promise<Uint8Array | string> {
  try {
    return await readFile(file);
  } catch {
    return `${file}: cannot be opened. Check the name and try again.`;
  }
}

function errorToWords(file: string, { type, what, where }: SheetError): string {
  return `${file}${where ? `, ${where}` : ''}: ${type.replaceAll('-', ' ')} (${what}). Give a CSV or XLSX file.`;
}

async function readPlan(file: string): Promise<Plan | string> {
  const bytes = await readBytes(file);
  if (typeof bytes === 'string') return bytes;
  const sheet = await readSheetFile(bytes, basename(file));
  if (sheet.type === 'sheet-error') return errorToWords(file, sheet.error);
  const read = readTables(sheet.tables, { name: fileToName(file) });
  if (read.type === 'not-a-schedule') {
    const where = read.where ? `, ${read.where.sheet} row ${read.where.row}` : '';
    return `${file}${where}: ${read.why} ${read.nextStep}`;
  }
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return { ...read.plan, source: { name: basename(file), sha256 } };
}

async function readSightings(file: string, plan: Plan): Promise<SightingGiven[] | string> {
  const bytes = await readBytes(file);
  if (typeof bytes === 'string') return bytes;
  const read = readSightingsCsv(bytes, plan);
  if (read.type === 'sheet-error') return errorToWords(file, read.error);
  if (read.type === 'no-header') return `${file}, row 1: column ${read.missing.join(' and ')} is missing.`;
  if (read.errors.length > 0) {
    const lines = read.errors.map(
      ({ row, column, said, why }) => `${file}, row ${row}, column ${column}: "${said}" is ${why}.`,
    );
    return `${lines.join('\n')}\nMend these rows and run it again; nothing was left out silently.`;
  }
  return read.sightings.map(({ author, at, zone, payload }) => ({ author, at: at ?? 0, zone, payload }));
}

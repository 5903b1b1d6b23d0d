// A schedule's file to a plan for the commands; what cannot be read becomes one sentence with file, row and column.
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { type SiteRules, toReading, USUAL_RULES } from '../core/schedule/desk/siteRules.ts';
import { readTables } from '../core/schedule/readTables.ts';
import type { ReadPlan } from '../core/schedule/rows/readTypes.ts';
import { fileToName, readSheetFile } from '../files/sheet.ts';
import { type SheetError, sheetErrorToWords } from '../files/sheetError.ts';

export interface Streams {
  out: (text: string) => void;
  err: (text: string) => void;
}

export const toConsole: Streams = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};

export async function readBytes(file: string): Promise<Uint8Array | string> {
  try {
    return await readFile(file);
  } catch {
    return `${file}: cannot be opened. Check the name and try again.`;
  }
}

export function errorToWords(file: string, error: SheetError): string {
  const { what, nextStep } = sheetErrorToWords(error.where === '' ? file : `${file}, ${error.where}`, error);
  return `${what} ${nextStep}`;
}

/**
 * The plan of a schedule with its questions and what was left aside, or the sentence that says why there is none.
 * @param rules The station's own, where there are any: its words and how it counts a rack.
 */
export async function readPlan(
  file: string,
  rules: SiteRules = USUAL_RULES,
): Promise<Extract<ReadPlan, { type: 'plan' }> | string> {
  const bytes = await readBytes(file);
  if (typeof bytes === 'string') return bytes;
  const sheet = await readSheetFile(bytes, basename(file));
  if (sheet.type === 'sheet-error') return errorToWords(file, sheet.error);
  const read = readTables(sheet.tables, { ...toReading(rules), name: fileToName(file) });
  if (read.type === 'not-a-schedule') {
    const where = read.where ? `, ${read.where.sheet} row ${read.where.row}` : '';
    return `${file}${where}: ${read.why} ${read.nextStep}`;
  }
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return { ...read, plan: { ...read.plan, source: { name: basename(file), sha256 } } };
}

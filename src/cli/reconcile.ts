// `npm run reconcile -- --plan FILE [--sightings FILE] [--json]`: the same core without a screen. Standard output is
// JSON and nothing else; what went wrong is said on standard error with row and column.

import { parseArgs } from 'node:util';
import type { Plan } from '../core/plan/model.ts';
import { changesCable, foldSightings, foldToOutput, type SightingGiven } from '../core/report/reconcileOutput.ts';
import { readSightingsCsv } from '../files/sightingsCsv.ts';
import { errorToWords, readBytes, readPlan, type Streams, toConsole } from './readPlan.ts';

const USAGE = 'Usage: npm run reconcile -- --plan FILE [--sightings FILE] [--json]';
/** @returns 0 nothing differs, 1 something differs or a question that changes a cable is open, 2 unusable input. */
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
  const read = await readPlan(given.plan);
  if (typeof read === 'string') return fail(read);
  const sightings = given.sightings ? await readSightings(given.sightings, read.plan) : [];
  if (typeof sightings === 'string') return fail(sightings);
  const output = foldToOutput(foldSightings(read.plan, sightings), read);
  streams.out(`${JSON.stringify(output, null, 2)}\n`);
  return output.discrepancies.length > 0 || read.questions.some(changesCable) ? 1 : 0;
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

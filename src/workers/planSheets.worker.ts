// Writes the plan as sheets away from the page. It reads nothing itself: the plan and its sources are handed to it. The
// page ends it to cancel.

import * as z from 'zod/mini';
import { type Plan, planSchema } from '../core/plan/model.ts';
import { sheetsLeftToLines } from '../core/report/plan/sheetsLeft.ts';
import type { TextEncoding } from '../core/schedule/answers/encodings.ts';
import { toReading } from '../core/schedule/desk/siteRules.ts';
import { planToSheets } from '../core/schedule/sheets/planToSheets.ts';
import { type SourceFile, writeSheets } from '../files/back/writeSheets.ts';
import { fileToName, readSheetFile } from '../files/sheet.ts';
import type { SheetsAnswer, SheetsRequest } from '../wire/planSheets.ts';
import { isOf } from '../wire/worker.ts';
import { serve } from './calls/serve.ts';

/** Shares of the work: the files read, the sheets put together; the rest writes them. */
const READ = 0.1;
const MADE = 0.85;
const LEFT_SHOWN = 30;

type Sources = Extract<SheetsRequest, { type: 'sources' }>;
type Progress = { share: number };

let asked: { plan: Plan; as: 'xlsx' | 'csv' } | null = null;

function begin({ plan: bytes, as }: Extract<SheetsRequest, { type: 'write' }>): SheetsAnswer {
  const plan = z.parse(planSchema, JSON.parse(new TextDecoder().decode(bytes)));
  asked = { plan, as };
  return { type: 'wants', files: plan.source?.files ?? [], sha256: plan.source?.sha256 ?? null };
}

async function write(
  { files: sources, answers, rules }: Sources,
  tell: (progress: Progress) => void,
): Promise<SheetsAnswer> {
  if (!asked) throw new Error('There is no plan to write.');
  const { plan, as } = asked;
  const source = await openSources(sources, answers?.encoding);
  const told = (share: number) => tell({ share: READ + (MADE - READ) * share });
  told(0);
  const made = planToSheets(plan, source?.flatMap(({ tables }) => tables) ?? null, {
    answers: answers ?? undefined,
    rules: rules && toReading(rules),
    told,
  });
  tell({ share: MADE });
  const { files, kept, spoiled } = await writeSheets(made, source, plan.name, as);
  const lines = sheetsLeftToLines(made.left);
  return {
    type: 'sheets',
    files: files.map(({ bytes, ...file }) => ({ ...file, bytes: bytes.slice().buffer })),
    form: made.form,
    kept,
    spoiled,
    amended: made.amended,
    left: { n: lines.length, first: lines.slice(0, LEFT_SHOWN) },
  };
}

/** @param encoding Of the text files, where a person chose it. */
async function openSources(sources: Sources['files'], encoding?: TextEncoding): Promise<SourceFile[] | null> {
  if (!sources || sources.length === 0) return null;
  const opened: SourceFile[] = [];
  for (const { name, bytes: buffer } of sources) {
    const bytes = new Uint8Array(buffer);
    const read = await readSheetFile(bytes, name, undefined, encoding);
    if (read.type !== 'tables') return null;
    // Named as when it was read: several files of one workbook each keep apart by their file's name.
    const prefix = sources.length > 1 && read.tables.length > 1 ? `${fileToName(name)}: ` : '';
    opened.push({
      name,
      bytes,
      encoding,
      tables: read.tables.map((table) => ({ ...table, name: prefix + table.name })),
    });
  }
  return opened;
}

serve<SheetsRequest, SheetsAnswer, Progress>(self, {
  read: isOf<SheetsRequest>({ write: true, sources: true }),
  answer: (request, tell) => (request.type === 'write' ? begin(request) : write(request, tell)),
  transfer: (answer) => (answer.type === 'sheets' ? answer.files.map(({ bytes }) => bytes) : []),
});

// Reads schedule files away from the page, so that a large sheet never stops a finger. It keeps the rows it has read,
// and reads them again with other answers. The page ends it to cancel.
import * as z from 'zod/mini';
import { type Plan, planSchema } from '../core/plan/model.ts';
import { indexPlan } from '../core/plan/planIndex.ts';
import { readTables } from '../core/plan/readTables.ts';
import type { Table } from '../core/plan/readTypes.ts';
import { NO_ANSWERS, rememberedMappings, type SheetAnswers } from '../core/plan/sheetAnswers.ts';
import { deskView } from '../core/report/deskView.ts';
import { againstPlan, type Compared } from '../core/report/revisionView.ts';
import { fileToName, readSheetFile } from '../files/sheet.ts';
import type { SheetAnswer, SheetOpening, SheetRequest } from '../wire/sheet.ts';
import { rowCells, tableToShape } from './sheetShapes.ts';

interface Opened {
  tables: Table[];
  encoding: string | null;
  name: string;
  sources: string;
  sha256: string;
  rules: SheetOpening['rules'];
  against: { revision: string; name: string; plan: Plan | null } | null;
  remembered: ReturnType<typeof rememberedMappings>;
  /** Those of the last reading. */
  answers: SheetAnswers;
}
let opened: Opened | null = null;

async function open({ files, as, against, rules, shapes = [] }: SheetOpening): Promise<SheetAnswer> {
  const tables: Table[] = [];
  let encoding: string | null = null;
  for (const [i, file] of files.entries()) {
    const sheet = await readSheetFile(new Uint8Array(file.bytes), file.name);
    if (sheet.type === 'sheet-error') return { type: 'sheet-error', error: sheet.error, file: file.name };
    // Several files of one workbook each keep apart by their file's name.
    const prefix = files.length > 1 && sheet.tables.length > 1 ? `${fileToName(file.name)}: ` : '';
    tables.push(...sheet.tables.map((table) => ({ ...table, name: prefix + table.name })));
    encoding = sheet.text?.encoding ?? encoding;
    post({ type: 'progress', share: (0.6 * (i + 1)) / files.length, rows: 0, of: 0 });
  }
  if (as === 'tables') return { type: 'tables', tables };
  const remembered = rememberedMappings(tables, shapes);
  opened = {
    tables,
    encoding,
    name: files.map((file) => fileToName(file.name)).join(', '),
    sources: files.map((file) => file.name).join(', '),
    sha256: await hashOf(files.map((file) => file.bytes)),
    rules,
    against: against ? { revision: against.revision, name: against.name, plan: bytesToPlan(against.bytes) } : null,
    remembered,
    answers: NO_ANSWERS,
  };
  return read(opened, { ...NO_ANSWERS, mappings: remembered.map(({ mapping }) => mapping) });
}

function read(from: Opened, answers: SheetAnswers): SheetAnswer {
  const { tables, name, sources, sha256, rules } = from;
  from.answers = answers;
  const of = tables.reduce((sum, table) => sum + table.rows.length, 0);
  const told = (rows: number) => post({ type: 'progress', share: 0.6 + (0.3 * rows) / Math.max(of, 1), rows, of });
  told(0);
  const result = readTables(tables, { name, numbering: rules?.numbering, answers, told });
  const taken = {
    sheets: tables.map((table) => tableToShape(table, answers)),
    answers,
    remembered: from.remembered
      .filter(({ mapping }) => answers.mappings.some((one) => sameMapping(one, mapping)))
      .map(({ mapping, at }) => ({ sheet: mapping.sheet, at })),
    sha256,
  };
  if (result.type === 'not-a-schedule') return { ...result, ...taken };
  told(of);
  const { plan, compared } = compare({ ...result.plan, source: { name: sources, sha256 } }, from.against, result.ids);
  const sample = result.counts.lists.flatMap((list) => {
    const table = tables.find((one) => one.name === list.sheet);
    const first = table?.firstRow ?? 1;
    const start = list.headerRow - first;
    return (table?.rows.slice(start, start + 6) ?? []).map((cells, i) => ({
      sheet: list.sheet,
      row: first + start + i,
      cells: cells.slice(0, 40),
    }));
  });
  const desk = deskView(indexPlan(plan), rules);
  return { ...result, type: 'read', plan, sample, encoding: from.encoding, compared, desk, ...taken };
}

function sameMapping(a: SheetAnswers['mappings'][number], b: SheetAnswers['mappings'][number]): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

async function answer(request: SheetRequest): Promise<SheetAnswer> {
  if (request.type === 'open') return open(request);
  if (!opened) throw new Error('No file is open.');
  if (request.type === 'again') return read(opened, request.answers);
  const { sheet, row } = request;
  return {
    type: 'row',
    cells: rowCells(opened.tables.find(({ name }) => name === sheet) ?? null, row, opened.answers),
  };
}

/** With the ids and the parent of the plan in force, where that is here. */
function compare(plan: Plan, against: Opened['against'], ids?: 'given'): { plan: Plan; compared: Compared | null } {
  if (!against) return { plan, compared: null };
  const { revision, name, plan: old } = against;
  return old
    ? againstPlan(plan, { revision, plan: old }, ids)
    : { plan, compared: { type: 'not-here', revision, name } };
}

function bytesToPlan(bytes: ArrayBuffer | null): Plan | null {
  const read = bytes && z.safeParse(planSchema, JSON.parse(new TextDecoder().decode(bytes)));
  return read?.success ? read.data : null;
}

/** One file keeps its own hash; several are hashed in the order given. */
async function hashOf(files: ArrayBuffer[]): Promise<string> {
  const whole = new Uint8Array(files.reduce((sum, file) => sum + file.byteLength, 0));
  let at = 0;
  for (const file of files) {
    whole.set(new Uint8Array(file), at);
    at += file.byteLength;
  }
  const digest = await crypto.subtle.digest('SHA-256', whole);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

function post(answer: SheetAnswer): void {
  self.postMessage(answer);
}

self.onmessage = ({ data }: MessageEvent<SheetRequest>) => {
  answer(data).then(post, (error: unknown) => {
    const what = error instanceof Error ? error.message : String(error);
    const file = data.type === 'open' ? (data.files[0]?.name ?? '') : (opened?.sources ?? '');
    post({ type: 'sheet-error', error: { type: 'damaged', what, where: '' }, file });
  });
};

// Reads schedule files away from the page, so that a large sheet never stops a finger. The page ends it to cancel.
import * as z from 'zod/mini';
import { type Plan, planSchema } from '../core/plan/model.ts';
import { indexPlan } from '../core/plan/planIndex.ts';
import { readTables } from '../core/plan/readTables.ts';
import type { Table } from '../core/plan/readTypes.ts';
import { deskView } from '../core/report/deskView.ts';
import { againstPlan, type Compared } from '../core/report/revisionView.ts';
import { fileToName, readSheetFile } from '../files/sheet.ts';
import type { SheetAnswer, SheetRequest } from '../wire/sheet.ts';

async function read({ files, as, against, rules }: SheetRequest): Promise<SheetAnswer> {
  const tables: Table[] = [];
  let encoding: string | null = null;
  for (const [i, file] of files.entries()) {
    const sheet = await readSheetFile(new Uint8Array(file.bytes), file.name);
    if (sheet.type === 'sheet-error') return { type: 'sheet-error', error: sheet.error, file: file.name };
    // Several files of one workbook each keep apart by their file's name.
    const prefix = files.length > 1 && sheet.tables.length > 1 ? `${fileToName(file.name)}: ` : '';
    tables.push(...sheet.tables.map((table) => ({ ...table, name: prefix + table.name })));
    encoding = sheet.text?.encoding ?? encoding;
    post({ type: 'progress', share: (0.6 * (i + 1)) / files.length });
  }
  if (as === 'tables') return { type: 'tables', tables };
  const name = files.map((file) => fileToName(file.name)).join(', ');
  const result = readTables(tables, { name, numbering: rules?.numbering });
  if (result.type === 'not-a-schedule') return result;
  const sources = files.map((file) => file.name).join(', ');
  const sha256 = await hashOf(files.map((file) => file.bytes));
  const { plan, compared } = compare({ ...result.plan, source: { name: sources, sha256 } }, against);
  const sample = result.counts.lists.flatMap((list) => {
    const table = tables.find((one) => one.name === list.sheet);
    const first = table?.firstRow ?? 1;
    const from = list.headerRow - first;
    return (table?.rows.slice(from, from + 6) ?? []).map((cells, i) => ({
      sheet: list.sheet,
      row: first + from + i,
      cells: cells.slice(0, 40),
    }));
  });
  return { ...result, type: 'read', plan, sample, encoding, compared, desk: deskView(indexPlan(plan), rules) };
}

/** With the ids and the parent of the plan in force, where that is here. */
function compare(plan: Plan, against: SheetRequest['against']): { plan: Plan; compared: Compared | null } {
  if (!against) return { plan, compared: null };
  const { revision, name, bytes } = against;
  const old = bytes && z.safeParse(planSchema, JSON.parse(new TextDecoder().decode(bytes)));
  if (!old?.success) return { plan, compared: { type: 'not-here', revision, name } };
  return againstPlan(plan, { revision, plan: old.data });
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
  read(data).then(post, (error: unknown) => {
    const what = error instanceof Error ? error.message : String(error);
    post({ type: 'sheet-error', error: { type: 'damaged', what, where: '' }, file: data.files[0]?.name ?? '' });
  });
};

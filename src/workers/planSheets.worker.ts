// Writes the plan as sheets away from the page. It reads nothing itself: the plan and its sources are handed to it.
import * as z from 'zod/mini';
import { planSchema } from '../core/plan/model.ts';
import type { Table } from '../core/plan/readTypes.ts';
import { planToSheets } from '../core/plan/sheets/planToSheets.ts';
import { tablesToXlsx, tableToCsv } from '../files/planSheet.ts';
import { fileToName, readSheetFile } from '../files/sheet.ts';
import type { SheetsAnswer, SheetsRequest } from '../wire/planSheets.ts';

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

async function write({ plan: bytes, as, sources }: SheetsRequest): Promise<SheetsAnswer> {
  const plan = z.parse(planSchema, JSON.parse(new TextDecoder().decode(bytes)));
  const { tables, form, amended, left } = planToSheets(plan, await toTables(sources));
  const name = plan.name.replace(/[^\p{L}\p{N}.-]+/gu, '-').replace(/^[-.]+|[-.]+$/g, '') || 'schedule';
  const files =
    as === 'xlsx'
      ? [{ name: `${name}.xlsx`, mime: XLSX, bytes: (await tablesToXlsx(tables)).buffer }]
      : tables.map((table) => ({
          name: tables.length === 1 ? `${name}.csv` : `${name} ${table.name}.csv`,
          mime: 'text/csv',
          bytes: tableToCsv(table).slice().buffer as ArrayBuffer,
        }));
  return { type: 'sheets', files, form, amended, left };
}

async function toTables(sources: SheetsRequest['sources']): Promise<Table[] | null> {
  if (!sources || sources.length === 0) return null;
  const tables: Table[] = [];
  for (const { name, bytes } of sources) {
    const read = await readSheetFile(new Uint8Array(bytes), name);
    if (read.type !== 'tables') return null;
    // Named as when it was read: several files of one workbook each keep apart by their file's name.
    const prefix = sources.length > 1 && read.tables.length > 1 ? `${fileToName(name)}: ` : '';
    tables.push(...read.tables.map((table) => ({ ...table, name: prefix + table.name })));
  }
  return tables;
}

self.onmessage = ({ data }: MessageEvent<SheetsRequest>) => {
  const post = (answer: SheetsAnswer) => self.postMessage(answer);
  write(data).then(post, (error: unknown) =>
    post({ type: 'failed', why: error instanceof Error ? error.message : String(error) }),
  );
};

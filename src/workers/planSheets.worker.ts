// Writes the plan as sheets away from the page. It reads nothing itself: the plan and its sources are handed to it.
import * as z from 'zod/mini';
import { planSchema } from '../core/plan/model.ts';
import { planToSheets } from '../core/plan/sheets/planToSheets.ts';
import { tablesToXlsx, tableToCsv } from '../files/planSheet.ts';
import type { SheetsAnswer, SheetsRequest } from '../wire/planSheets.ts';

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

async function write({ plan: bytes, as }: SheetsRequest): Promise<SheetsAnswer> {
  const plan = z.parse(planSchema, JSON.parse(new TextDecoder().decode(bytes)));
  const { tables, form, amended, left } = planToSheets(plan);
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

self.onmessage = ({ data }: MessageEvent<SheetsRequest>) => {
  const post = (answer: SheetsAnswer) => self.postMessage(answer);
  write(data).then(post, (error: unknown) =>
    post({ type: 'failed', why: error instanceof Error ? error.message : String(error) }),
  );
};

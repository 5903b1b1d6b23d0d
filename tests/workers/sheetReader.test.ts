// What the page is handed while a schedule is brought in does not grow with the schedule: lists that are cut off and
// counted, and the plan as bytes. The sheets are made up.
import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../src/core/plan/model.ts';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { NO_ANSWERS } from '../../src/core/schedule/sheetAnswers.ts';
import { rowsToCsvBytes } from '../../src/files/csvOut.ts';
import { tablesToXlsx } from '../../src/files/planSheet.ts';
import type { SheetAnswer, SheetRequest } from '../../src/wire/sheet.ts';
import { createSheetReader, toTransfer } from '../../src/workers/sheetReader.ts';
import { createFacility } from '../bench/benchFacility.ts';

/** Every kind of list grows with the rows: dittos, notes, doubtful jacks, cables without a number, contradictions. */
function untidy(rows: number): string[][] {
  const [header = [], ...cells] = createFacility(rows).rows;
  cells.forEach((row, i) => {
    if (i % 3 === 1) row[8] = '"';
    if (i % 4 === 0) row[3] += ' (new)';
    if (i % 7 === 0) row[6] = 'rear?';
    if (i % 11 === 0) row[0] = '';
    if (i % 13 === 0 && i > 0) row[3] = cells[i - 1]?.[3] ?? '';
  });
  return [header, ...cells];
}

const bufferOf = (bytes: Uint8Array) => bytes.slice().buffer as ArrayBuffer;

/** Texts, numbers and the like that structured clone has to make one by one; a buffer is handed over whole. */
function valuesIn(given: unknown): number {
  if (given instanceof ArrayBuffer) return 1;
  if (typeof given !== 'object' || given === null) return 1;
  return Object.values(given).reduce<number>((sum, one) => sum + valuesIn(one), 1);
}

async function bringIn(rows: string[][], inForce: Plan | null = null) {
  const messages: SheetAnswer[] = [];
  const reader = createSheetReader((progress) => messages.push(progress));
  const ask = async (request: SheetRequest) => {
    const answer = await reader.answer(request);
    messages.push(answer);
    return answer;
  };
  const against = inForce && {
    revision: 'r1',
    name: inForce.name,
    bytes: bufferOf(new TextEncoder().encode(JSON.stringify(inForce))),
  };
  const files = [{ name: 'cables.csv', bytes: bufferOf(rowsToCsvBytes(rows)) }];
  const read = await ask({ type: 'open', files, against });
  if (read.type !== 'read') throw new Error(read.type);
  return { read, ask, messages };
}

describe('the messages to the page', () => {
  const counted: { rows: number; open: number; values: number; messages: number }[] = [];
  beforeAll(async () => {
    for (const rows of [1_000, 4_000]) {
      const { plan: inForce } = createFacility(rows);
      const { read, ask, messages } = await bringIn(untidy(rows), inForce);
      await ask({ type: 'again', answers: NO_ANSWERS });
      for (const { kind } of read.guesses.open) await ask({ type: 'agree', said: { to: 'agree', kind } });
      await ask({ type: 'row', sheet: 'cables', row: 5 });
      await ask({ type: 'document' });
      const values = Math.max(...messages.map(valuesIn));
      counted.push({ rows, open: read.guesses.openCount, values, messages: messages.length });
    }
  });

  it('hold no more values for four times the rows, although four times as much was guessed', () => {
    const [small, large] = counted;
    expect(large?.open).toBeGreaterThan(3 * (small?.open ?? Number.POSITIVE_INFINITY));
    expect(large?.values).toBeLessThan(1.3 * (small?.values ?? 0));
    expect(large?.values).toBeLessThan(10_000);
  });

  it('tell the progress every 500 rows, not every row', () => {
    for (const { rows, messages } of counted) expect(messages).toBeLessThan((2 * rows) / 500 + 30);
  });
});

describe('a workbook', () => {
  it('tells the rows of all its sheets while it is opened, before their number is known', async () => {
    const [header = [], ...cells] = createFacility(1_200).rows;
    const sheets = [
      { name: 'Wing A', rows: [header, ...cells.slice(0, 600)] },
      { name: 'Wing B', rows: [header, ...cells.slice(600)] },
    ];
    const told: SheetAnswer[] = [];
    const reader = createSheetReader((progress) => told.push(progress));
    const bytes = bufferOf(await tablesToXlsx(sheets));
    const read = await reader.answer({ type: 'open', files: [{ name: 'both.xlsx', bytes }] });
    expect(read).toMatchObject({ type: 'read', plan: { cables: 1_200 } });
    const opening = told.flatMap((one) => (one.type === 'progress' && one.of === 0 ? [one] : []));
    expect(opening.map(({ rows }) => rows)).toEqual([500, 1_101, 0]);
    const shares = told.flatMap((one) => (one.type === 'progress' ? [one.share] : []));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });
});

describe('the plan', () => {
  const rows = untidy(300);

  it('comes as the bytes of its document, handed over with the files that it names', async () => {
    const { ask, read } = await bringIn(rows);
    const made = await ask({ type: 'document' });
    if (made.type !== 'document') throw new Error(made.type);
    expect(toTransfer(made)).toEqual([made.plan.bytes, made.files[0]?.bytes]);
    const hash = (bytes: ArrayBuffer) => createHash('sha256').update(new Uint8Array(bytes)).digest('hex');
    expect(made.plan.sha256).toBe(hash(made.plan.bytes));
    const plan = JSON.parse(new TextDecoder().decode(made.plan.bytes)) as Plan;
    const sha256 = createHash('sha256').update(rowsToCsvBytes(rows)).digest('hex');
    expect(plan.source).toEqual({ name: 'cables.csv', sha256, files: [{ name: 'cables.csv', sha256 }] });
    const direct = readTables([{ name: 'cables', rows }], { name: 'cables' });
    if (direct.type !== 'plan') throw new Error(direct.why);
    expect(plan).toEqual({ ...JSON.parse(JSON.stringify(direct.plan)), source: plan.source });
    expect(read.plan.cables).toBe(plan.cables.length);
    expect([made.files[0]?.sha256, hash(made.files[0]!.bytes)]).toEqual([sha256, sha256]);
    // Where it found no room it is asked for again, and is the same.
    expect(await ask({ type: 'document' })).toEqual(made);
  });

  it('bears another name where one is given', async () => {
    const { ask } = await bringIn(rows);
    const made = await ask({ type: 'document', name: 'Demo' });
    if (made.type !== 'document') throw new Error(made.type);
    expect([made.name, (JSON.parse(new TextDecoder().decode(made.plan.bytes)) as Plan).name]).toEqual(['Demo', 'Demo']);
  });
});

describe('what was agreed to', () => {
  it('stays agreed to when the sheet is read again, and is put in again from what was kept', async () => {
    const { ask, read } = await bringIn(untidy(60));
    const [group] = read.guesses.open;
    const agreed = await ask({ type: 'agree', said: { to: 'agree', kind: group!.kind } });
    if (agreed.type !== 'agreed') throw new Error(agreed.type);
    expect(agreed.guesses.openCount).toBe(read.guesses.openCount - group!.n);
    const again = await ask({ type: 'again', answers: NO_ANSWERS });
    expect(again.type === 'read' && again.guesses).toEqual(agreed.guesses);
    const other = await bringIn(untidy(60));
    const resumed = await other.ask({ type: 'again', answers: NO_ANSWERS, agreed: agreed.agreed });
    expect(resumed.type === 'read' && resumed.guesses).toEqual(agreed.guesses);
  });

  it('is an answer too where no file is open: no question goes without one', async () => {
    const reader = createSheetReader(() => undefined);
    expect(await reader.answer({ type: 'document' })).toMatchObject({
      type: 'sheet-error',
      error: { type: 'damaged' },
    });
  });
});

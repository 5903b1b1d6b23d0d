// Reads schedule files for the page: keeps the rows, the plan and what was agreed to, and reads again with other answers.
// Whoever asks gets what a screen shows and never the plan itself, but for the bytes of its document.
import * as z from 'zod/mini';
import { type Plan, planSchema } from '../core/plan/model.ts';
import { indexPlan } from '../core/plan/planIndex.ts';
import { coverageOf, type ReadList } from '../core/report/plan/coverage.ts';
import { deskView } from '../core/report/plan/deskView.ts';
import {
  type Agreement,
  type KeyedGuess,
  keyGuesses,
  listGuesses,
  withAgreement,
} from '../core/report/plan/guessKinds.ts';
import { isOf, listQuestions, questionKey, withGroup } from '../core/report/plan/questionGroups.ts';
import { againstPlan, type Compared } from '../core/report/plan/revisionView.ts';
import { rowToReading } from '../core/report/walk/rowReading.ts';
import type { TextEncoding } from '../core/schedule/answers/encodings.ts';
import { rememberedAnswers, rememberedMappings } from '../core/schedule/answers/remembered.ts';
import { toReading } from '../core/schedule/desk/siteRules.ts';
import { readTables } from '../core/schedule/readTables.ts';
import type { Question, ReadCounts, Table } from '../core/schedule/rows/readTypes.ts';
import { columnsOf, holdsRow, NO_ANSWERS, type SheetAnswers, withAnswers } from '../core/schedule/sheetAnswers.ts';
import { splitLists } from '../core/schedule/splitLists.ts';
import { fileToName, readSheetFile } from '../files/sheet.ts';
import type { HashedBytes, SheetAnswer, SheetOpening, SheetRequest } from '../wire/sheet.ts';
import { nextOpen, rowFacts, rowLines } from './sheetRows.ts';
import { isWhole, tableToShape } from './sheetShapes.ts';

/** Header and rows of each list that the preview shows, and how much of a cell. */
const SAMPLE_ROWS = 6;
const SAMPLE_COLUMNS = 40;
const SAMPLE_TEXT = 121;

interface Opened {
  files: SheetOpening['files'];
  tables: Table[];
  /** The same rows, each list apart. */
  lists: Table[];
  encoding: TextEncoding | null;
  name: string;
  sources: string;
  sha256: string;
  rules: SheetOpening['rules'];
  against: { revision: string; name: string; plan: Plan | null } | null;
  remembered: ReturnType<typeof rememberedMappings>;
  /** Those of the last reading. */
  answers: SheetAnswers;
  plan: Plan | null;
  guesses: KeyedGuess[];
  questions: Question[];
  /** Keys of guesses that are agreed to, and of questions that are left as they were read. */
  agreed: ReadonlySet<string>;
}

interface SheetReader {
  /** Never throws: what cannot be read is an answer too. */
  answer(request: SheetRequest): Promise<SheetAnswer>;
}

type Reader = {
  post: (progress: Extract<SheetAnswer, { type: 'progress' }>) => void;
  opened: Opened | null;
};

/** @param post Hears how far it is. */
export function createSheetReader(post: (progress: Extract<SheetAnswer, { type: 'progress' }>) => void): SheetReader {
  const reader: Reader = { post, opened: null };

  return {
    answer: (request) =>
      answer(reader, request).catch((error: unknown): SheetAnswer => {
        const what = error instanceof Error ? error.message : String(error);
        const file = request.type === 'open' ? (request.files[0]?.name ?? '') : (reader.opened?.sources ?? '');
        return { type: 'sheet-error', error: { type: 'damaged', what, where: '' }, file };
      }),
  };
}

type Tables = Pick<Opened, 'tables' | 'encoding'>;

/** Every file to its tables, or why one of them is none. */
async function readFiles(
  reader: Reader,
  files: SheetOpening['files'],
  chosen?: SheetAnswers['encoding'],
): Promise<Tables | Extract<SheetAnswer, { type: 'sheet-error' }>> {
  const tables: Table[] = [];
  let encoding: TextEncoding | null = null;
  for (const [i, file] of files.entries()) {
    // How many there will be is not known yet: the bar goes on, ever more slowly.
    const toShare = (rows: number) => (0.6 * (i + rows / (rows + 10_000))) / files.length;
    const told = (rows: number) => reader.post({ type: 'progress', share: toShare(rows), rows, of: 0 });
    const sheet = await readSheetFile(new Uint8Array(file.bytes), file.name, told, chosen);
    if (sheet.type === 'sheet-error') return { type: 'sheet-error', error: sheet.error, file: file.name };
    // Several files of one workbook each keep apart by their file's name.
    const prefix = files.length > 1 && sheet.tables.length > 1 ? `${fileToName(file.name)}: ` : '';
    tables.push(...sheet.tables.map((table) => ({ ...table, name: prefix + table.name })));
    encoding = sheet.text?.encoding ?? encoding;
    reader.post({ type: 'progress', share: (0.6 * (i + 1)) / files.length, rows: 0, of: 0 });
  }
  return { tables, encoding };
}

async function open(reader: Reader, { files, as, against, rules, shapes = [] }: SheetOpening): Promise<SheetAnswer> {
  const opened = await readFiles(reader, files);
  if ('type' in opened) return opened;
  const { tables, encoding } = opened;
  if (as === 'tables') return { type: 'tables', tables };
  const lists = splitLists(tables);
  const remembered = rememberedMappings(lists, shapes);
  reader.opened = {
    files,
    tables,
    lists,
    encoding,
    name: files.map((file) => fileToName(file.name)).join(', '),
    sources: files.map((file) => file.name).join(', '),
    sha256: await hashOf(files.map((file) => file.bytes)),
    rules,
    against: against ? { revision: against.revision, name: against.name, plan: bytesToPlan(against.bytes) } : null,
    remembered,
    answers: NO_ANSWERS,
    plan: null,
    guesses: [],
    questions: [],
    agreed: new Set(),
  };
  return read(reader, reader.opened, rememberedAnswers(lists, shapes));
}

function read(reader: Reader, from: Opened, answers: SheetAnswers): SheetAnswer {
  const { tables, lists, name, sources, sha256, rules } = from;
  from.answers = answers;
  from.plan = null;
  from.guesses = [];
  from.questions = [];
  const of = tables.reduce((sum, table) => sum + table.rows.length, 0);
  const told = (rows: number) =>
    reader.post({ type: 'progress', share: 0.6 + (0.3 * rows) / Math.max(of, 1), rows, of });
  told(0);
  const cablesInForce = from.against?.plan?.cables;
  const result = readTables(tables, { name, ...(rules ? toReading(rules) : {}), cablesInForce, answers, told });
  const taken = {
    sheets: lists.map((table) => tableToShape(table, answers, lists, from.remembered)),
    answers,
    sha256,
  };
  if (result.type === 'not-a-schedule') return { ...result, ...taken };
  told(of);
  const { plan, compared } = compare({ ...result.plan, source: { name: sources, sha256 } }, from.against, result.ids);
  from.plan = plan;
  from.guesses = keyGuesses(result.guesses);
  from.questions = result.questions;
  const { counts, questions } = result;
  return {
    type: 'read',
    name: plan.name,
    plan: {
      cables: plan.cables.length,
      units: plan.units.length,
      jacks: plan.jacks.length,
      racks: plan.racks.length,
    },
    guesses: listGuesses(from.guesses, from.agreed),
    questions: listQuestions(questions, from.agreed),
    counts,
    coverage: result.ids === 'given' ? null : coverageOf(toLists(from, answers), result.plan, counts, result),
    samples: samplesOf(lists, counts, plan),
    encoding: from.encoding,
    compared,
    desk: deskView(indexPlan(plan), rules),
    ...taken,
  };
}

async function answer(reader: Reader, request: SheetRequest): Promise<SheetAnswer> {
  if (request.type === 'open') return open(reader, request);
  if (!reader.opened) throw new Error('No file is open.');
  switch (request.type) {
    case 'again':
      if (request.agreed !== undefined) reader.opened.agreed = new Set(request.agreed.split('\n').filter(Boolean));
      return again(reader, reader.opened, request.answers);
    case 'agree':
      return agree(reader.opened, request.said);
    case 'settle':
      return settle(reader, reader.opened, request);
    case 'row':
      return { type: 'row', ...rowFacts(reader.opened, request.sheet, request.row) };
    case 'rows':
      return { type: 'rows', lines: rowLines(reader.opened, request) };
    case 'next':
      return { type: 'next', row: nextOpen(reader.opened, request.sheet, request.row) };
    case 'document':
      return toDocument(reader.opened, request.name);
  }
}

/** In another encoding the files are read anew, and their cells say other words. */
async function again(reader: Reader, from: Opened, answers: SheetAnswers): Promise<SheetAnswer> {
  if (answers.encoding !== from.answers.encoding) {
    const opened = await readFiles(reader, from.files, answers.encoding);
    if ('type' in opened) return opened;
    Object.assign(from, opened, { lists: splitLists(opened.tables) });
  }
  return read(reader, from, answers);
}

function agree(opened: Opened, said: Agreement): SheetAnswer {
  opened.agreed = withAgreement(opened.guesses, opened.agreed, said, opened.questions);
  return {
    type: 'agreed',
    guesses: listGuesses(opened.guesses, opened.agreed),
    questions: listQuestions(opened.questions, opened.agreed),
    agreed: [...opened.agreed].join('\n'),
  };
}

/** All open questions of the group, also those that were never handed over. */
function settle(reader: Reader, opened: Opened, { of, how }: Extract<SheetRequest, { type: 'settle' }>): SheetAnswer {
  const { questions, agreed, answers, lists } = opened;
  const mine = questions.filter((one) => isOf(one, of) && !agreed.has(questionKey(one)));
  const titlesOf = (table: Table) => columnsOf(table, answers)?.titles ?? [];
  return read(reader, opened, withGroup(answers, mine, how, lists, titlesOf));
}

/** Each list as the file has it, with the columns that it was read by. */
function toLists({ lists }: Opened, answers: SheetAnswers): ReadList[] {
  const said = withAnswers(lists, answers);
  return lists.flatMap((table, i): ReadList[] => {
    // Whoever does not use a sheet misses none of its words.
    if (answers.unused?.includes(table.name)) return [];
    const { left } = said[i] ?? table;
    return [{ table, columns: columnsOf(said[i] ?? table, answers), left }];
  });
}

/** What of an answer is handed over rather than copied. */
export function toTransfer(answer: SheetAnswer): ArrayBuffer[] {
  return answer.type === 'document' ? [answer.plan, ...answer.files].map(({ bytes }) => bytes) : [];
}

/** The files go as copies: where they find no room, they are asked for again. */
async function toDocument({ plan, files, sha256, answers }: Opened, name: string | undefined): Promise<SheetAnswer> {
  if (!plan) throw new Error('Nothing was read that could be the plan.');
  // A list that completes the plan in force goes on with the files of that plan.
  const own = plan.source !== null && plan.source.files === undefined && plan.source.sha256 === sha256;
  const kept = own ? await Promise.all(files.map(async ({ bytes }) => hashed(bytes.slice(0)))) : [];
  const named = files.slice(0, kept.length).map((file, i) => ({ name: file.name, sha256: kept[i]?.sha256 ?? '' }));
  const whole: Plan = {
    ...plan,
    name: name ?? plan.name,
    ...(own && plan.source ? { source: { ...plan.source, files: named } } : {}),
  };
  const { buffer } = new TextEncoder().encode(JSON.stringify(whole));
  const settled = { sha256, answers };
  return { type: 'document', name: whole.name, plan: await hashed(buffer), files: kept, settled };
}

async function hashed(bytes: ArrayBuffer): Promise<HashedBytes> {
  return { bytes, sha256: await hashOf([bytes]) };
}

function samplesOf(lists: readonly Table[], counts: ReadCounts, plan: Plan) {
  return counts.lists.flatMap(({ sheet, headerRow }) => {
    const table = lists.find((one) => holdsRow(one, sheet, headerRow));
    if (!table) return [];
    const first = table.firstRow ?? 1;
    const start = headerRow - first;
    // Without a header the first row is an item.
    const shown = start < 0 ? [[], ...table.rows.slice(0, SAMPLE_ROWS)] : table.rows.slice(start, start + SAMPLE_ROWS);
    const rows = shown.map((cells, i) => ({
      row: headerRow + i,
      cells: cells.slice(0, SAMPLE_COLUMNS).map((cell) => cell.slice(0, SAMPLE_TEXT)),
      readAs: i === 0 ? '' : rowToReading(plan, sheet, headerRow + i),
    }));
    return [{ sheet, whole: isWhole(table, lists), rows }];
  });
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

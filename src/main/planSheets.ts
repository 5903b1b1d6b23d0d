// The plan in force as sheets, and the files it was read from as documents. Loaded when somebody asks for it.
//
// Limits: What was settled of a sheet is kept on the phone that brought it in; another phone reads the sheet by its
// column names and says so.
import type { SheetAnswers } from '../core/schedule/sheetAnswers.ts';
import type { Commands } from '../store/commands.ts';
import type { StationStore } from '../store/database.ts';
import { document as readDocument } from '../store/queries.ts';
import { SETTLED } from '../ui/drafts/deskDrafts.ts';
import type { KeptServices } from '../ui/drafts/draftServices.ts';
import type { PlanFiles } from '../ui/services.ts';
import type { SheetsAnswer, SheetsRequest } from '../wire/planSheets.ts';
import type { HashedBytes, SheetAnswer } from '../wire/sheet.ts';
import { isOf } from '../wire/worker.ts';
import { type Answered, createWorkerClient } from '../workers/calls/client.ts';
import type { RecordClient } from './recordClient.ts';

interface Station {
  store: StationStore;
  commands: Pick<Commands, 'storeDocument' | 'wantDocument'>;
  drafts: Pick<KeptServices, 'draft' | 'saveDraft'>;
  record: Pick<RecordClient, 'ask'>;
}

type SourceFiles = { name: string; bytes: ArrayBuffer }[];

/**
 * The document of a plan that was read from files, and before it those files, each under its own hash: no plan names a
 * file that was never here.
 */
export async function keepSheetPlan(
  station: Pick<Station, 'commands' | 'drafts'>,
  { name, plan, files, settled }: Extract<SheetAnswer, { type: 'document' }>,
): Promise<{ type: 'kept'; revision: string; name: string; bytes: number } | { type: 'not-kept'; why: string }> {
  const keep = ({ bytes, sha256 }: HashedBytes, mime: string) =>
    station.commands.storeDocument(new Uint8Array(bytes), mime, 'own', sha256);
  for (const file of files) {
    const stored = await keep(file, 'application/octet-stream');
    if (stored.type !== 'stored') return { type: 'not-kept', why: stored.type };
  }
  const length = plan.bytes.byteLength;
  const stored = await keep(plan, 'application/json');
  if (stored.type !== 'stored') return { type: 'not-kept', why: stored.type };
  await keepSettled(station, settled);
  return { type: 'kept', revision: stored.sha, name, bytes: length };
}

/** What was settled of files that became a plan: on this phone alone, for the day when their sheet is given back. */
interface Settled {
  sha256: string;
  answers: SheetAnswers;
}
const SETTLED_KEY = 'sheets-settled';
const MAX_SETTLED = 20;

async function settledSheets({ drafts }: Pick<Station, 'drafts'>): Promise<Settled[]> {
  return (await drafts.draft(SETTLED_KEY, SETTLED)) ?? [];
}

async function keepSettled(station: Pick<Station, 'drafts'>, settled: Settled): Promise<void> {
  const others = (await settledSheets(station)).filter(({ sha256 }) => sha256 !== settled.sha256);
  await station.drafts.saveDraft(SETTLED_KEY, [settled, ...others].slice(0, MAX_SETTLED), SETTLED);
}

async function settledOf(station: Pick<Station, 'drafts'>, sha256: string): Promise<SheetAnswers | null> {
  return (await settledSheets(station)).find((one) => one.sha256 === sha256)?.answers ?? null;
}

/** Made in a worker of its own, which is ended at once when it is cancelled. */
export async function planFiles(
  station: Station,
  as: 'xlsx' | 'csv',
  onProgress: (share: number) => void,
  signal: AbortSignal,
): Promise<PlanFiles> {
  const force = await station.record.ask('planInForce', {});
  const found = force && (await readDocument(station.store, force.revision));
  if (found?.type !== 'done' || !found.value) {
    return { type: 'failed', why: 'The plan in force is not on this phone. Send and receive first.' };
  }
  const worker = startWriter(onProgress, signal);
  try {
    return await written(station, worker, { type: 'write', plan: found.value.bytes.buffer, as });
  } finally {
    worker.end();
  }
}

async function written(
  station: Station,
  worker: ReturnType<typeof startWriter>,
  request: Extract<SheetsRequest, { type: 'write' }>,
): Promise<PlanFiles> {
  const first = await worker.ask(request);
  if (first.type !== 'done' || first.value.type !== 'wants') return toEnded(first);
  const wants = first.value;
  const sources = await sourcesOf(station, wants.files);
  const answers = wants.sha256 === null ? null : await settledOf(station, wants.sha256);
  // Without an answer the usual rules hold.
  const rules = await station.record.ask('siteRules', {}).then(
    (given) => given.rules,
    () => undefined,
  );
  const last = await worker.ask({ type: 'sources', files: sources.files, answers, rules });
  if (last.type !== 'done' || last.value.type !== 'sheets') return toEnded(last);
  const answer = last.value;
  const files = answer.files.map(({ name, mime, bytes }) => new File([bytes], name, { type: mime }));
  const settledElsewhere = answer.form === 'source' && answers === null;
  return { ...answer, type: 'files', files, sourceMissing: sources.missing, settledElsewhere };
}

async function sourcesOf(
  { store, commands }: Station,
  named: readonly { name: string; sha256: string }[],
): Promise<{ files: SourceFiles | null; missing: boolean }> {
  const files: SourceFiles = [];
  for (const { name, sha256 } of named) {
    const found = await readDocument(store, sha256);
    if (found.type === 'done' && found.value) files.push({ name, bytes: found.value.bytes.buffer });
    else await commands.wantDocument(sha256);
  }
  const missing = files.length < named.length;
  return { files: missing || files.length === 0 ? null : files, missing };
}

type Ended = Extract<PlanFiles, { type: 'failed' | 'cancelled' }>;

function startWriter(onProgress: (share: number) => void, signal: AbortSignal) {
  const client = createWorkerClient<SheetsRequest, SheetsAnswer, { share: number }>({
    start: () =>
      new Worker(new URL('../workers/planSheets.worker.ts', import.meta.url), { type: 'module', name: 'plan-sheets' }),
    read: isOf<SheetsAnswer>({ wants: true, sheets: true }),
    onProgress: ({ share }) => onProgress(share),
  });
  return {
    ask(request: SheetsRequest): Promise<Answered<SheetsAnswer>> {
      const transfer = request.type === 'write' ? [request.plan] : (request.files ?? []).map(({ bytes }) => bytes);
      return client.ask(request, { transfer, signal });
    },
    end: client.end,
  };
}

/** Why there are no files. */
function toEnded(answer: Answered<SheetsAnswer>): Ended {
  switch (answer.type) {
    case 'cancelled':
      return { type: 'cancelled' };
    case 'worker-failed':
      return { type: 'failed', why: answer.why };
    case 'worker-died':
      return { type: 'failed', why: 'The writer could not be started. Reload the app and try again.' };
    case 'worker-misfit':
      return { type: 'failed', why: 'The app and its writer are of different versions. Reload the app and try again.' };
    case 'worker-late':
    case 'done':
      return { type: 'failed', why: 'The writer made no sheet. Reload the app and try again.' };
  }
}

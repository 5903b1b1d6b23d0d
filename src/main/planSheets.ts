// The plan in force as sheets, and the files it was read from as documents. Loaded when somebody asks for it.
import type { Plan } from '../core/plan/model.ts';
import type { Commands } from '../store/commands.ts';
import type { StationStore } from '../store/database.ts';
import { document as readDocument } from '../store/queries.ts';
import type { PlanFiles } from '../ui/services.ts';
import type { SheetsAnswer, SheetsRequest } from '../wire/planSheets.ts';
import type { HashedBytes, SheetAnswer } from '../wire/sheet.ts';
import type { RecordClient } from './recordClient.ts';

interface Station {
  store: StationStore;
  commands: Pick<Commands, 'storeDocument' | 'wantDocument'>;
  record: Pick<RecordClient, 'ask'>;
}

type SourceFiles = { name: string; bytes: ArrayBuffer }[];

/**
 * The document of a plan that was read from files, and before it those files, each under its own hash: no plan names a
 * file that was never here.
 */
export async function keepSheetPlan(
  { commands }: Pick<Station, 'commands'>,
  { name, plan, files }: Extract<SheetAnswer, { type: 'document' }>,
): Promise<{ type: 'kept'; revision: string; name: string; bytes: number } | { type: 'not-kept'; why: string }> {
  const keep = ({ bytes, sha256 }: HashedBytes, mime: string) =>
    commands.storeDocument(new Uint8Array(bytes), mime, 'own', sha256);
  for (const file of files) {
    const stored = await keep(file, 'application/octet-stream');
    if (stored.type !== 'stored') return { type: 'not-kept', why: stored.type };
  }
  const length = plan.bytes.byteLength;
  const stored = await keep(plan, 'application/json');
  if (stored.type !== 'stored') return { type: 'not-kept', why: stored.type };
  return { type: 'kept', revision: stored.sha, name, bytes: length };
}

/** Made in a worker of its own. */
export async function planFiles(station: Station, as: 'xlsx' | 'csv'): Promise<PlanFiles> {
  const force = await station.record.ask('planInForce', {});
  const found = force && (await readDocument(station.store, force.revision));
  if (found?.type !== 'done' || !found.value) {
    return { type: 'failed', why: 'The plan in force is not on this phone. Send and receive first.' };
  }
  const plan = found.value.bytes.buffer;
  const sources = await sourcesOf(station, JSON.parse(new TextDecoder().decode(found.value.bytes)) as Plan);
  const answer = await ask({ plan, as, sources: sources.files });
  if (answer.type === 'failed') return answer;
  const files = answer.files.map(({ name, mime, bytes }) => new File([bytes], name, { type: mime }));
  return { ...answer, type: 'files', files, sourceMissing: sources.missing };
}

async function sourcesOf(
  { store, commands }: Station,
  plan: Plan,
): Promise<{ files: SourceFiles | null; missing: boolean }> {
  const named = plan.source?.files ?? [];
  const files: SourceFiles = [];
  for (const { name, sha256 } of named) {
    const found = await readDocument(store, sha256);
    if (found.type === 'done' && found.value) files.push({ name, bytes: found.value.bytes.buffer });
    else await commands.wantDocument(sha256);
  }
  const missing = files.length < named.length;
  return { files: missing || files.length === 0 ? null : files, missing };
}

function ask(request: SheetsRequest): Promise<SheetsAnswer> {
  const worker = new Worker(new URL('../workers/planSheets.worker.ts', import.meta.url), {
    type: 'module',
    name: 'plan-sheets',
  });
  return new Promise((resolve) => {
    const end = (answer: SheetsAnswer) => {
      worker.terminate();
      resolve(answer);
    };
    worker.onmessage = ({ data }: MessageEvent<SheetsAnswer>) => end(data);
    worker.onerror = () =>
      end({ type: 'failed', why: 'The writer could not be started. Reload the app and try again.' });
    worker.postMessage(request, [request.plan, ...(request.sources ?? []).map(({ bytes }) => bytes)]);
  });
}

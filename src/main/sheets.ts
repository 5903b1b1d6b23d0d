// Reading schedule files in a worker of their own: progress comes back, and cancelling ends the worker.

import { sheetErrorToWords } from '../files/sheetError.ts';
import type { StationStore } from '../store/database.ts';
import { document as readDocument } from '../store/queries.ts';
import type { SheetRead, TablesRead } from '../ui/services.ts';
import type { SheetAnswer, SheetRequest } from '../wire/sheet.ts';
import type { RecordClient } from './recordClient.ts';

/** Nothing on a phone takes this long; a hostile file might. */
const LIMIT_MS = 120_000;

type Files = { name: string; bytes: ArrayBuffer }[];

interface Station {
  store: StationStore;
  record: Pick<RecordClient, 'ask'>;
}

/** Compared with the plan in force where there is one; without a station with none. */
export async function readSheet(
  station: Station | null,
  files: Files,
  onProgress: (share: number) => void,
  signal: AbortSignal,
) {
  const against = station && (await planInForce(station));
  // Without an answer the usual rules hold; the sheet is read all the same.
  const rules = station
    ? await station.record.ask('siteRules', {}).then(
        (answer) => answer.rules,
        () => undefined,
      )
    : undefined;
  const answer = await readFiles({ files, against, rules }, onProgress, signal);
  return answer.type === 'tables' ? refusal('This is no schedule.', 'Choose the cable schedule.') : answer;
}

async function planInForce({ store, record }: Station) {
  const force = await record.ask('planInForce', {});
  if (!force) return null;
  const found = await readDocument(store, force.revision);
  return { ...force, bytes: found.type === 'done' && found.value ? found.value.bytes.slice().buffer : null };
}

/** The rows alone, of any list. */
export async function readTables(files: Files, signal: AbortSignal): Promise<TablesRead> {
  const answer = await readFiles({ files, as: 'tables' }, () => undefined, signal);
  return answer.type === 'read' ? refusal('The list could not be read.', 'Save it anew as XLSX or CSV.') : answer;
}

function refusal(what: string, nextStep: string): Extract<TablesRead, { type: 'refused' }> {
  return { type: 'refused', what, where: null, nextStep };
}

function readFiles(
  request: SheetRequest,
  onProgress: (share: number) => void,
  signal: AbortSignal,
): Promise<SheetRead | TablesRead> {
  const { files } = request;
  const worker = new Worker(new URL('../workers/sheet.worker.ts', import.meta.url), { type: 'module', name: 'sheet' });
  return new Promise((resolve) => {
    const end = (answer: SheetRead | TablesRead) => {
      clearTimeout(timer);
      worker.terminate();
      resolve(answer);
    };
    const refuse = (what: string, nextStep: string, where: string | null = null) =>
      end({ type: 'refused', what, where, nextStep });
    const timer = setTimeout(
      () => refuse('Reading took longer than two minutes.', 'Split the file and bring the parts in one by one.'),
      LIMIT_MS,
    );
    signal.addEventListener('abort', () =>
      refuse('Reading was cancelled.', 'Nothing was changed. Choose a file to begin again.'),
    );
    worker.onerror = () => refuse('The reader could not be started.', 'Reload the app and choose the file again.');
    worker.onmessage = ({ data }: MessageEvent<SheetAnswer>) => {
      if (data.type === 'progress') onProgress(data.share);
      else if (data.type === 'read' || data.type === 'tables') end(data);
      else if (data.type === 'not-a-schedule') {
        refuse(data.why, data.nextStep, data.where && `${data.where.sheet}, row ${data.where.row}`);
      } else {
        const { what, nextStep } = sheetErrorToWords(data.file, data.error);
        refuse(what, nextStep, data.error.where || null);
      }
    };
    worker.postMessage(request, [
      ...files.map((file) => file.bytes),
      ...(request.against?.bytes ? [request.against.bytes] : []),
    ]);
  });
}

// Reading schedule files in a worker of their own: progress comes back, and cancelling ends the worker.

import type { RememberedShape } from '../core/schedule/answers/remembered.ts';
import { sheetErrorToWords } from '../files/sheetError.ts';
import type { StationStore } from '../store/database.ts';
import { document as readDocument } from '../store/queries.ts';
import type { SheetProgress, SheetRead, SheetSession, TablesRead } from '../ui/services.ts';
import type { SheetAnswer, SheetOpening, SheetRequest } from '../wire/sheet.ts';
import { isOf } from '../wire/worker.ts';
import { type CallFailure, createWorkerClient } from '../workers/calls/client.ts';
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
  shapes: RememberedShape[],
  onProgress: (progress: SheetProgress) => void,
  signal: AbortSignal,
): Promise<SheetRead> {
  const against = station && (await planInForce(station));
  // Without an answer the usual rules hold; the sheet is read all the same.
  const rules = station
    ? await station.record.ask('siteRules', {}).then(
        (answer) => answer.rules,
        () => undefined,
      )
    : undefined;
  const worker = startReader(onProgress);
  const answer = await worker.ask({ type: 'open', files, against, rules, shapes }, signal);
  const read = toRead(answer, worker);
  if (read.type === 'refused') worker.end();
  return read;
}

/** The worker goes on behind what it read, so that it can be read again; it ends with `close`, a refusal or a failure. */
function toRead(answer: Answered, worker: Reader): SheetRead {
  const session: SheetSession = {
    again: async (answers, agreed) => toRead(await worker.ask({ type: 'again', answers, agreed }), worker),
    async agree(said) {
      const agreed = await worker.ask({ type: 'agree', said });
      return agreed.type === 'agreed' ? agreed : null;
    },
    settle: async (of, how) => toRead(await worker.ask({ type: 'settle', of, how }), worker),
    async row(sheet, row) {
      const facts = await worker.ask({ type: 'row', sheet, row });
      return facts.type === 'row' ? facts : null;
    },
    async rows(sheet, from, n) {
      const rows = await worker.ask({ type: 'rows', sheet, from, n });
      return rows.type === 'rows' ? rows.lines : [];
    },
    async next(sheet, row) {
      const next = await worker.ask({ type: 'next', sheet, row });
      return next.type === 'next' ? next.row : null;
    },
    async document(name) {
      const made = await worker.ask({ type: 'document', name });
      return made.type === 'document' ? made : null;
    },
    close: worker.end,
  };
  if (answer.type === 'read') return { ...answer, session };
  if (answer.type === 'not-a-schedule') {
    const { why, where, sheets, answers, sha256, nextStep } = answer;
    const taken = { sheets, answers, sha256 };
    return { ...taken, type: 'unmapped', what: why, where: where && toWhere(where), nextStep, session };
  }
  return answer.type === 'refused' ? answer : refusal('This is not a schedule.', 'Choose the cable schedule.');
}

const toWhere = ({ sheet, row }: { sheet: string; row: number }) => `${sheet}, row ${row}`;

async function planInForce({ store, record }: Station) {
  const force = await record.ask('planInForce', {});
  if (!force) return null;
  const found = await readDocument(store, force.revision);
  return { ...force, bytes: found.type === 'done' && found.value ? found.value.bytes.buffer : null };
}

/** The rows alone, of any list. */
export async function readTables(files: Files, signal: AbortSignal): Promise<TablesRead> {
  const worker = startReader(() => undefined);
  const answer = await worker.ask({ type: 'open', files, as: 'tables' }, signal);
  worker.end();
  if (answer.type === 'tables' || answer.type === 'refused') return answer;
  return refusal('The list could not be read.', 'Save it again as XLSX or CSV.');
}

type Refused = Extract<TablesRead, { type: 'refused' }>;
type Answered = Exclude<SheetAnswer, { type: 'progress' | 'sheet-error' }> | Refused;

function refusal(what: string, nextStep: string, where: string | null = null): Refused {
  return { type: 'refused', what, where, nextStep };
}

interface Reader {
  /** Answered in the order in which they are asked; a cancelled one ends the worker at once. */
  ask(request: SheetRequest, signal?: AbortSignal): Promise<Answered>;
  end(): void;
}

type SheetAnswered = Exclude<SheetAnswer, { type: 'progress' }>;
const readAnswer = isOf<SheetAnswered>({
  read: true,
  agreed: true,
  document: true,
  tables: true,
  row: true,
  rows: true,
  next: true,
  'not-a-schedule': true,
  'sheet-error': true,
});

function startReader(onProgress: (progress: SheetProgress) => void): Reader {
  const client = createWorkerClient<SheetRequest, SheetAnswered, SheetProgress>({
    start: () => new Worker(new URL('../workers/sheet.worker.ts', import.meta.url), { type: 'module', name: 'sheet' }),
    read: readAnswer,
    onProgress,
  });
  let ended: Refused | null = null;
  const stop = (answer: Refused): Refused => {
    ended ??= answer;
    client.end();
    return ended;
  };
  let closed = false;
  return {
    end: () => {
      closed = true;
      stop(refusal('The sheet was closed.', 'Choose the file again.'));
    },
    async ask(request, signal) {
      if (ended) return ended;
      const transfer = request.type === 'open' ? toTransfer(request) : [];
      const answer = await client.ask(request, { transfer, signal, limit: LIMIT_MS });
      // Whoever put it away in the meantime waits for no answer any more.
      if (closed) return new Promise<never>(() => undefined);
      if (answer.type !== 'done') return stop(failureToRefusal(answer));
      const { value } = answer;
      if (value.type !== 'sheet-error') return value;
      const { what, nextStep } = sheetErrorToWords(value.file, value.error);
      return stop(refusal(what, nextStep, value.error.where || null));
    },
  };
}

function failureToRefusal(failure: CallFailure): Refused {
  switch (failure.type) {
    case 'worker-died':
      return refusal('The reader could not be started.', 'Reload the app and choose the file again.');
    case 'worker-misfit':
      return refusal('The app and its reader are of different versions.', 'Reload the app and choose the file again.');
    case 'worker-failed':
      return refusal('The reader failed.', 'Reload the app and choose the file again.', failure.why);
    case 'worker-late':
      return refusal('Reading took longer than two minutes.', 'Split the file and import the parts one by one.');
    case 'cancelled':
      return refusal('Reading was cancelled.', 'Nothing was changed. Choose a file to begin again.');
  }
}

function toTransfer({ files, against }: SheetOpening): ArrayBuffer[] {
  return [...files.map((file) => file.bytes), ...(against?.bytes ? [against.bytes] : [])];
}

// One life of the record worker: started, fed with the stored events and the plans that they name, asked. It owns nothing,
// so whoever needs another one after its end starts it and feeds it from the beginning.
import type { StationStore } from '../store/database.ts';
import { document as readDocument, readEvents } from '../store/queries.ts';
import type { PageToWorker } from '../wire/page.ts';
import { type CallFailure, createWorkerClient } from '../workers/calls/client.ts';

export interface RecordWorker {
  /** Rejects with what is wrong, in words. */
  send(message: PageToWorker): Promise<unknown>;
  /** Hands over the plans that events name; one that is not on this phone yet is asked for at the next exchange. */
  loadPlans(): Promise<void>;
}

/** Answers once it is fed. @param onEnd Called once, when it has ended for whatever reason. */
export async function startRecordWorker(
  store: StationStore,
  wantDocument: (sha: string) => void,
  onEnd: () => void,
): Promise<RecordWorker> {
  const client = createWorkerClient<PageToWorker, unknown>({
    start: () =>
      new Worker(new URL('../workers/record.worker.ts', import.meta.url), { type: 'module', name: 'record' }),
    read: (body) => body ?? null,
    onEnd,
  });

  async function send(message: PageToWorker): Promise<unknown> {
    const answer = await client.ask(message, { transfer: message.type === 'plan' ? [message.bytes] : [] });
    if (answer.type === 'done') return answer.value;
    throw new Error(failureToWhy(answer));
  }

  async function loadPlans(): Promise<void> {
    const missing: string[] = [];
    for (let next = await wanted(missing); next.length > 0; next = await wanted(missing)) {
      for (const revision of next) {
        const found = await readDocument(store, revision);
        if (found.type !== 'done' || !found.value) {
          missing.push(revision);
          wantDocument(revision);
          continue;
        }
        await send({ type: 'plan', revision, bytes: found.value.bytes.buffer });
      }
    }
  }

  async function wanted(missing: string[]): Promise<string[]> {
    const all = (await send({ type: 'ask', question: 'wanted', with: { missing } })) as string[];
    return all.filter((revision) => !missing.includes(revision));
  }

  try {
    const sent: Promise<unknown>[] = [];
    for await (const read of readEvents(store)) {
      if (read.type !== 'texts') throw new Error('The record on this phone cannot be read at the moment.');
      // The worker takes these apart while the next ones are read.
      const taken = send({ type: 'texts', texts: read.texts });
      taken.catch(() => undefined);
      sent.push(taken);
    }
    await Promise.all(sent);
    await loadPlans();
  } catch (error) {
    client.end();
    throw error;
  }
  return { send, loadPlans };
}

function failureToWhy(failure: CallFailure): string {
  switch (failure.type) {
    case 'worker-failed':
      return failure.why;
    case 'worker-misfit':
      return 'This page and its worker are of different versions. Reload the app.';
    case 'worker-died':
      return `The record worker: ${failure.why}. Try again; if that does not help, reload the app.`;
    case 'worker-late':
    case 'cancelled':
      return 'The record worker was stopped. Try again.';
  }
}

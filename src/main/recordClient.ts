// The page's end of the record worker: starts it when first needed, feeds it the stored events and plans, and asks.
// When the worker dies it is started again and fed again, since it owns nothing.
import { signal } from '@preact/signals';
import type { StationStore } from '../store/database.ts';
import { document as readDocument, readEvents } from '../store/queries.ts';
import { PAGE_VERSION, type PageToWorker, type Question, type Questions, type WorkerToPage } from '../wire/page.ts';

type Unnumbered = PageToWorker extends infer M ? (M extends PageToWorker ? Omit<M, 'id' | 'version'> : never) : never;

export function createRecordClient(store: StationStore, wantDocument: (sha: string) => void) {
  const changed = signal(0);
  const waiting = new Map<number, { resolve: (value: unknown) => void; reject: (error: Error) => void }>();
  let worker: Worker | null = null;
  let ready: Promise<void> | null = null;
  let lastId = 0;

  function start(): Promise<void> {
    ready ??= (async () => {
      worker = new Worker(new URL('../workers/record.worker.ts', import.meta.url), { type: 'module', name: 'record' });
      worker.onmessage = ({ data }: MessageEvent<WorkerToPage>) => {
        const call = waiting.get(data.id);
        waiting.delete(data.id);
        if (data.type === 'done') call?.resolve(data.value);
        else call?.reject(new Error(data.why));
      };
      worker.onerror = (event) => die(event.message || 'the record worker could not be loaded');
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
    })();
    return ready;
  }

  function die(why: string): void {
    for (const call of waiting.values()) call.reject(new Error(why));
    waiting.clear();
    worker?.terminate();
    worker = null;
    ready = null;
  }

  function send(message: Unnumbered, transfer: Transferable[] = []): Promise<unknown> {
    const to = worker;
    if (!to) return Promise.reject(new Error('the record worker has ended'));
    lastId += 1;
    const id = lastId;
    return new Promise((resolve, reject) => {
      waiting.set(id, { resolve, reject });
      to.postMessage({ ...message, id, version: PAGE_VERSION }, transfer);
    });
  }

  /** Hands over the plans that events name; one that is not on this phone yet is asked for at the next exchange. */
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
        const { buffer } = found.value.bytes;
        await send({ type: 'plan', revision, bytes: buffer }, [buffer]);
      }
    }
  }

  async function wanted(missing: string[]): Promise<string[]> {
    const all = (await send({ type: 'ask', question: 'wanted', with: { missing } })) as string[];
    return all.filter((revision) => !missing.includes(revision));
  }

  return {
    changed,
    start,
    async ask<Q extends Question>(question: Q, given: Questions[Q]['ask']): Promise<Questions[Q]['answer']> {
      await start();
      return (await send({ type: 'ask', question, with: given })) as Questions[Q]['answer'];
    },
    /**
     * New event texts, from this page or elsewhere. Does nothing before the first question: they are on disk. Never
     * rejects: whoever wrote an entry has written it, and the screens that ask next are told what is wrong.
     */
    async take(texts: string[]): Promise<void> {
      try {
        if (!ready) return;
        await ready;
        await send({ type: 'texts', texts });
        if (texts.some((text) => /"plan-adopted"|"audit-(started|bound)"/.test(text))) await loadPlans();
      } catch (error) {
        console.error(error);
      } finally {
        changed.value += 1;
      }
    },
    /** A document arrived: it may be the plan that was waited for. */
    async documentArrived(): Promise<void> {
      if (!ready) return;
      await ready;
      await loadPlans();
      changed.value += 1;
    },
  };
}
export type RecordClient = ReturnType<typeof createRecordClient>;

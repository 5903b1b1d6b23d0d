// The page's way to the record worker: started when first needed, and anew by the next question after it has ended. What
// it is fed with and how stands in recordWorker.ts, which the first screen does without.
import { signal } from '@preact/signals';
import type { StationStore } from '../store/database.ts';
import type { Question, Questions } from '../wire/page.ts';
import type { RecordWorker } from './recordWorker.ts';

export function createRecordClient(store: StationStore, wantDocument: (sha: string) => void) {
  const changed = signal(0);
  let life: Promise<RecordWorker> | null = null;

  function start(): Promise<RecordWorker> {
    if (life) return life;
    // Only its own end ends it: by then another may have begun.
    const over = () => {
      if (life === mine) life = null;
    };
    const mine = import('./recordWorker.ts').then(({ startRecordWorker }) =>
      startRecordWorker(store, wantDocument, over),
    );
    mine.catch(over);
    life = mine;
    return mine;
  }

  return {
    changed,
    start,
    async ask<Q extends Question>(question: Q, given: Questions[Q]['ask']): Promise<Questions[Q]['answer']> {
      const worker = await start();
      return (await worker.send({ type: 'ask', question, with: given })) as Questions[Q]['answer'];
    },
    /**
     * New event texts, from this page or elsewhere. Does nothing before the first question: they are on disk. Never
     * rejects: whoever wrote an entry has written it, and the screens that ask next are told what is wrong.
     */
    async take(texts: string[]): Promise<void> {
      try {
        const worker = await life;
        if (!worker) return;
        await worker.send({ type: 'texts', texts });
        if (texts.some((text) => /"plan-adopted"|"audit-(started|bound)"/.test(text))) await worker.loadPlans();
      } catch (error) {
        console.error(error);
      } finally {
        changed.value += 1;
      }
    },
    /** A document arrived: it may be the plan that was waited for. */
    async documentArrived(): Promise<void> {
      const worker = await life;
      if (!worker) return;
      await worker.loadPlans();
      changed.value += 1;
    },
  };
}
export type RecordClient = ReturnType<typeof createRecordClient>;

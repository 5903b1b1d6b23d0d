// A worker's end of its messages: one question after the other, each with one answer, whatever goes wrong. What the
// bodies are is for the worker; a question of another version is answered as that, and nothing is done for it.
import { isAsk, WORKER_VERSION, type WorkerTell } from '../../wire/worker.ts';

/** The part of a worker's own scope that is used here. */
export interface ServeScope {
  onmessage: ((event: MessageEvent<unknown>) => void) | null;
  postMessage(message: unknown, options: { transfer: Transferable[] }): void;
  addEventListener(type: 'unhandledrejection', call: (event: { reason: unknown }) => void): void;
}

export interface Serving<Q, A, P> {
  /** Undefined for what is of no form that this worker knows. */
  read: (body: unknown) => Q | undefined;
  answer: (question: Q, tell: (progress: P) => void) => A | Promise<A>;
  /** What of an answer is handed over rather than copied. */
  transfer?: (answer: A) => Transferable[];
}

export function serve<Q, A, P = never>(scope: ServeScope, { read, answer, transfer }: Serving<Q, A, P>): void {
  let last: Promise<void> = Promise.resolve();
  let current = 0;

  const post = (id: number, tell: Tell, over: Transferable[] = []) =>
    scope.postMessage({ v: WORKER_VERSION, id, ...tell }, { transfer: over });
  const fail = (id: number, error: unknown) =>
    post(id, { type: 'failed', why: error instanceof Error ? error.message : String(error) });

  async function take(data: unknown): Promise<void> {
    const question = isAsk(data) ? read(data.body) : undefined;
    const id = (data as { id?: unknown } | null)?.id;
    if (question === undefined) return post(typeof id === 'number' ? id : 0, { type: 'misfit' });
    current = id as number;
    try {
      const answered = await answer(question, (body) => post(current, { type: 'progress', body }));
      post(current, { type: 'done', body: answered }, transfer?.(answered));
    } catch (error) {
      fail(current, error);
    }
  }

  // What fails outside the answer, in a promise that nobody waits for, would leave the page waiting for ever.
  scope.addEventListener('unhandledrejection', ({ reason }) => fail(current, reason));
  scope.onmessage = ({ data }) => {
    last = last.then(() => take(data));
  };
}

type Tell = WorkerTell extends infer T ? (T extends WorkerTell ? Omit<T, 'v' | 'id'> : never) : never;

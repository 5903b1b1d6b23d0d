// The page's end of any worker, for one life of it: each question has an id and one answer, whatever becomes of the worker.
// A message that does not fit ends it, and all who wait or ask later are told why. Whoever knows what to feed it with
// makes another one.
import { isTell, WORKER_VERSION, type WorkerAsk } from '../../wire/worker.ts';

export type CallFailure =
  /** It failed at this question, and goes on. */
  | { type: 'worker-failed'; why: string }
  /** It could not be loaded, or broke. */
  | { type: 'worker-died'; why: string }
  /** Page and worker are of different versions. */
  | { type: 'worker-misfit' | 'worker-late' | 'cancelled' };

export type Answered<A> = { type: 'done'; value: A } | CallFailure;

/** The part of a worker that is used here. */
export type WorkerPort = Pick<Worker, 'postMessage' | 'terminate'> & {
  onmessage: ((event: MessageEvent<unknown>) => void) | null;
  onmessageerror: ((event: MessageEvent<unknown>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
};

interface AskOptions {
  transfer?: Transferable[];
  /** Ends the worker in the middle of its work. */
  signal?: AbortSignal | undefined;
  /** Milliseconds after which the worker is taken to hang. */
  limit?: number;
}

export interface ClientParts<A, P> {
  start: () => WorkerPort;
  /** Undefined for what is of no form that the page knows. */
  read: (body: unknown) => A | undefined;
  onProgress?: (progress: P) => void;
  /** Called once, for whatever reason it ended. */
  onEnd?: () => void;
  after?: (ms: number, call: () => void) => () => void;
}

interface WorkerClient<Q, A> {
  ask(body: Q, options?: AskOptions): Promise<Answered<A>>;
  end(): void;
}

export function createWorkerClient<Q, A, P = never>(parts: ClientParts<A, P>): WorkerClient<Q, A> {
  const waiting = new Map<number, (answer: Answered<A>) => void>();
  let worker: WorkerPort | null = null;
  let over: CallFailure | null = null;
  let lastId = 0;

  function end(why: CallFailure): void {
    if (over) return;
    over = why;
    worker?.terminate();
    worker = null;
    const all = [...waiting.values()];
    waiting.clear();
    for (const answer of all) answer(why);
    parts.onEnd?.();
  }

  function begin(): WorkerPort {
    const made = parts.start();
    made.onmessage = ({ data }) => made === worker && hear(data);
    made.onmessageerror = () => end({ type: 'worker-misfit' });
    made.onerror = ({ message }) => end({ type: 'worker-died', why: message || 'it could not be loaded' });
    return made;
  }

  function hear(data: unknown): void {
    if (isTell(data)) {
      const answer = waiting.get(data.id);
      switch (data.type) {
        case 'progress':
          parts.onProgress?.(data.body as P);
          return;
        case 'failed':
          answer?.({ type: 'worker-failed', why: String(data.why) });
          return;
        case 'done': {
          const value = parts.read(data.body);
          if (value === undefined) break;
          answer?.({ type: 'done', value });
          return;
        }
      }
    }
    end({ type: 'worker-misfit' });
  }

  return {
    end: () => end({ type: 'cancelled' }),
    ask: (body, { transfer = [], signal, limit } = {}) =>
      new Promise((resolve) => {
        if (over) return resolve(over);
        lastId += 1;
        const id = lastId;
        const cancel = () => end({ type: 'cancelled' });
        const callOff = limit && (parts.after ?? later)(limit, () => end({ type: 'worker-late' }));
        waiting.set(id, (answer) => {
          waiting.delete(id);
          if (callOff) callOff();
          signal?.removeEventListener('abort', cancel);
          resolve(answer);
        });
        if (signal?.aborted) return cancel();
        signal?.addEventListener('abort', cancel);
        try {
          worker ??= begin();
          worker.postMessage({ v: WORKER_VERSION, id, body } satisfies WorkerAsk, transfer);
        } catch (error) {
          end({ type: 'worker-died', why: String(error) });
        }
      }),
  };
}

function later(ms: number, call: () => void): () => void {
  const timer = setTimeout(call, ms);
  return () => clearTimeout(timer);
}

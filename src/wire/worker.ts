// The envelope of every message between the page and a worker, either way. A page can outlive the worker file it started,
// so the version is looked at in each message; what is inside is for the schema of that worker.

/** Rises when any message between page and worker changes its meaning. */
export const WORKER_VERSION = 2;

export interface WorkerAsk {
  v: number;
  id: number;
  body: unknown;
}

export type WorkerTell = { v: number; id: number } & (
  | { type: 'done' | 'progress'; body: unknown }
  | { type: 'failed'; why: string }
  /** What was asked is of no form that this worker knows. */
  | { type: 'misfit' }
);

export function isAsk(data: unknown): data is WorkerAsk {
  const given = data as WorkerAsk | null | undefined;
  return given?.v === WORKER_VERSION && typeof given.id === 'number';
}

export function isTell(data: unknown): data is WorkerTell {
  const given = data as WorkerTell | null | undefined;
  return given?.v === WORKER_VERSION && typeof given.id === 'number' && typeof given.type === 'string';
}

/** What a body is told by, where no schema of it exists: every type of the table, and no other. */
export function isOf<T extends { type: string }>(types: Record<T['type'], true>): (body: unknown) => T | undefined {
  return (body) => {
    const type = (body as T | null | undefined)?.type;
    return typeof type === 'string' && Object.hasOwn(types, type) ? (body as T) : undefined;
  };
}

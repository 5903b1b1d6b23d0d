// A failure of the database as an exception, for callers to whom every failure of it is the same. Nothing else throws it.
import type { StoreFailure, StoreResult } from '../failures.ts';

/** The exchange takes any exception of its outbox as "the phone's own database refused" and tries again later. */
export class StoreFailed extends Error {
  override readonly name = 'StoreFailed';
  readonly failure: StoreFailure;
  constructor(failure: StoreFailure) {
    super(failure.type);
    this.failure = failure;
  }
}

export async function unwrap<T>(running: Promise<StoreResult<T>>): Promise<T> {
  const ran = await running;
  if (ran.type === 'done') return ran.value;
  throw new StoreFailed(ran);
}

// What is kept aside of the logs, and the time that it is judged by. Loaded when somebody asks for it.
import type { StationStore } from '../store/database.ts';
import * as asideView from '../store/record/asideView.ts';
import { now } from './station.ts';

/** None where the database does not answer; that has its own bar. */
export async function logTroubles(store: StationStore): Promise<asideView.LogTrouble[]> {
  const read = await store.run(asideView.logTroubles);
  return read.type === 'done' ? read.value : [];
}

export async function presentTime(store: StationStore): Promise<number> {
  const read = await store.run((db) => asideView.presentTime(db, now()));
  return read.type === 'done' ? read.value : now();
}

// A server's database put back to an earlier state, as a restore from a backup does it: what came since is gone.
import type { Database } from '../../src/server/database/database.ts';

export type State = { next: Map<string, number>; events: Set<string>; documents: Set<string> };

export async function stateOf(db: Database): Promise<State> {
  const stations = await db.query.selectFrom('stations').select(['id', 'next_number']).execute();
  const events = await db.query.selectFrom('events').select('id').execute();
  const documents = await db.query.selectFrom('documents').select('sha').execute();
  return {
    next: new Map(stations.map((row) => [row.id, Number(row.next_number)])),
    events: new Set(events.map((row) => row.id)),
    documents: new Set(documents.map((row) => row.sha)),
  };
}

/** @param history Null: the files were copied back by hand, and nothing tells that the numbering is another. */
export async function putBack(db: Database, state: State, history: string | null): Promise<void> {
  for (const { id } of await db.query.selectFrom('events').select('id').execute())
    if (!state.events.has(id)) await db.query.deleteFrom('events').where('id', '=', id).execute();
  for (const { sha } of await db.query.selectFrom('documents').select('sha').execute()) {
    if (state.documents.has(sha)) continue;
    await db.query.deleteFrom('chunks').where('sha', '=', sha).execute();
    await db.query.deleteFrom('documents').where('sha', '=', sha).execute();
  }
  for (const [id, next] of state.next) {
    const set = history === null ? { next_number: next } : { next_number: next, history };
    await db.query.updateTable('stations').set(set).where('id', '=', id).execute();
  }
}

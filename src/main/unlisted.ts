// Finds the station of a phone whose list of stations is gone. Reads alone; loaded when it is needed.
import { openStation } from '../store/database.ts';
import type { StationEntry } from '../store/directory.ts';
import { homeSummary } from '../store/queries.ts';

/** The one with most entries; null where none of them can be opened or holds any. */
export async function fullest(stations: readonly string[]): Promise<StationEntry | null> {
  let found: { entry: StationEntry; events: number } | null = null;
  for (const id of stations) {
    const opened = await openStation({ station: id });
    if (opened.type !== 'done') continue;
    const read = await opened.value.run(async (db) => ({
      events: await db.events.count(),
      home: await homeSummary(db),
    }));
    opened.value.close();
    if (read.type !== 'done' || read.value.events <= (found?.events ?? 0)) continue;
    const { view } = (read.value.home ?? {}) as { view?: { name?: string } };
    found = { entry: { id, name: view?.name ?? '', openedAt: 0 }, events: read.value.events };
  }
  return found?.entry ?? null;
}

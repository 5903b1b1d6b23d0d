// The demo station brought in: its schedule as the plan, its name. Loaded when somebody asks for it.
import type { StationStore } from '../store/database.ts';
import type { Recorded, SheetSession } from '../ui/services.ts';
import { readSheet } from './sheets.ts';

/** Clearly a demo wherever the station's name shows. */
const DEMO_NAME = 'Demo: Fennigmoor Community Radio';

export async function openDemo(
  store: StationStore,
  name: (payload: { name: string }) => Promise<Recorded>,
  adoptSheet: (session: SheetSession, name: string) => Promise<Recorded>,
): Promise<Recorded> {
  // The demo would rename a real station and put another plan in force.
  const held = await store.run((db) => db.events.count());
  if (held.type !== 'done' || held.value > 0) return { type: 'not-saved', event: '', why: 'not-empty' };
  const answer = await fetch('/demo/schedule.xlsx');
  const files = [{ name: 'schedule.xlsx', bytes: await answer.arrayBuffer() }];
  const read = await readSheet(null, files, [], () => undefined, new AbortController().signal);
  if (read.type !== 'read') return { type: 'not-saved', event: '', why: read.what };
  await name({ name: DEMO_NAME });
  const adopted = await adoptSheet(read.session, 'Demo schedule');
  read.session.close();
  return adopted;
}

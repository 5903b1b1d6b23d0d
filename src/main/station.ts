// Opens the station this phone worked in last, or makes an empty one: no account, no pairing, no question first.
import { createCommands } from '../store/commands.ts';
import { openStation } from '../store/database.ts';
import { createDirectory, type Directory, type StationEntry } from '../store/directory.ts';
import type { StoreFailure } from '../store/failures.ts';

export const now = () => Date.now();
export const newId = () => crypto.randomUUID();
/** Minutes east of UTC at a time. */
export const zone = (at: number) => -new Date(at).getTimezoneOffset();
export const after = (ms: number, call: () => void) => {
  const timer = setTimeout(call, ms);
  return () => clearTimeout(timer);
};

export type Opened =
  | {
      type: 'opened';
      entry: StationEntry;
      directory: Directory;
      settings: Awaited<ReturnType<Directory['settings']>>;
      store: OpenStore;
    }
  | { type: 'failed'; why: StoreFailure };
type OpenStore = Extract<Awaited<ReturnType<typeof openStation>>, { type: 'done' }>['value'];

export async function openPhone(): Promise<Opened> {
  const directory = createDirectory();
  const listed = await directory.stations();
  if (listed.type !== 'done') return { type: 'failed', why: listed };
  const entry: StationEntry = listed.value[0] ?? { id: newId(), name: '', openedAt: now() };
  const store = await openStation({ station: entry.id });
  if (store.type !== 'done') return { type: 'failed', why: store };
  if (listed.value.length === 0) await directory.openedStation(entry);
  return { type: 'opened', entry, directory, settings: await directory.settings(), store: store.value };
}

export function commandsFor(store: OpenStore, author: () => string) {
  return createCommands({ store, author, now, zone, newId });
}

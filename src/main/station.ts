// Opens the station this phone worked in last, or makes an empty one: no account, no pairing, no question first.
import { createCommands } from '../store/commands.ts';
import { openStation } from '../store/database.ts';
import { createDirectory, type Directory, type StationEntry, stationsOnDisk } from '../store/directory.ts';
import type { StoreFailure } from '../store/failures.ts';

export const now = () => Date.now();
export const newId = () => crypto.randomUUID();
/** Minutes east of UTC at a time. */
const zone = (at: number) => -new Date(at).getTimezoneOffset();
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
  | { type: 'failed'; why: StoreFailure | { type: 'not-secure' } };
type OpenStore = Extract<Awaited<ReturnType<typeof openStation>>, { type: 'done' }>['value'];

export async function openPhone(): Promise<Opened> {
  // Ids and hashes are made by what browsers give to secure connections alone.
  if (!globalThis.crypto?.subtle) return { type: 'failed', why: { type: 'not-secure' } };
  const directory = createDirectory();
  const listed = await directory.stations();
  if (listed.type !== 'done') return { type: 'failed', why: listed };
  const entry = listed.value[0] ?? (await unlistedStation()) ?? { id: newId(), name: '', openedAt: now() };
  const store = await openStation({ station: entry.id });
  if (store.type !== 'done') return { type: 'failed', why: store };
  if (listed.value.length === 0) {
    // A station that no list names would not be opened again.
    const noted = await directory.openedStation(entry);
    if (noted.type !== 'done') return { type: 'failed', why: noted };
  }
  return { type: 'opened', entry, directory, settings: await directory.settings(), store: store.value };
}

/** A record without its entry in the list, which a browser may lose alone: the app must not open empty beside it. */
async function unlistedStation(): Promise<StationEntry | null> {
  const stations = await stationsOnDisk();
  return stations.length > 0 ? (await import('./unlisted.ts')).fullest(stations) : null;
}

export function commandsFor(store: OpenStore, author: () => string) {
  return createCommands({ store, author, now, zone, newId });
}

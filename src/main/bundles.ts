// The whole station as one file, out by share or download and in again. Loaded when somebody asks for it.

import type { EventId } from '../core/plan/identity.ts';
import { readBundle, writeBundle } from '../files/bundle.ts';
import { isZip } from '../files/sheetError.ts';
import type { Commands } from '../store/commands.ts';
import { openStation, type StationStore } from '../store/database.ts';
import { bytesToHash } from '../store/hash.ts';
import { document as readDocument, readEvents } from '../store/queries.ts';
import { textsAside } from '../store/record/asideView.ts';
import type { BundleTaken, PhoneSettings } from '../ui/services.ts';
import { ID_PATTERN } from '../wire/sync.ts';
import { canHandOver } from './handOver.ts';
import type { ServiceParts } from './serviceParts.ts';
import { commandsFor, now } from './station.ts';

const NEWER = 'This file was made by a newer version of the app.';
/** Thousands of entries; a bar that cannot save holds a few. */
const MAX_UNSAVED_BYTES = 50_000_000;

/** With whether the phone can share it. */
export async function prepareFile(...given: Parameters<typeof prepareBundle>) {
  const file = await prepareBundle(...given);
  return { file, canShare: canHandOver(file) };
}

export async function prepareBundle(store: StationStore, commands: Commands, stationName: string): Promise<File> {
  const events: EventId[] = [];
  for await (const read of readEvents(store))
    if (read.type === 'texts') for (const text of read.texts) events.push(text);
  // What this phone keeps aside another one may have the place for.
  const aside = await store.run(textsAside);
  for (const text of aside.type === 'done' ? aside.value : []) events.push(text);
  events.push(...commands.unsaved());
  const heads = await store.run((db) => db.documentHeads.toArray());
  const documents = new Map<string, Uint8Array>();
  for (const head of heads.type === 'done' ? heads.value : []) {
    const found = await readDocument(store, head.sha);
    if (found.type === 'done' && found.value) documents.set(head.sha, found.value.bytes);
  }
  const zip = writeBundle({ station: store.station, stationName, events, documents });
  const day = new Date().toISOString().slice(0, 10);
  const name = `${stationName.replace(/[^\p{L}\p{N}]+/gu, '-') || 'station'}-${day}.asfound.zip`;
  return new File([zip.slice()], name, { type: 'application/zip' });
}

interface BundleTarget {
  store: StationStore;
  commands: Commands;
  /** Opens the database of another station, for a bundle brought in on an empty phone. */
  openOther: (station: string) => Promise<{ store: StationStore; commands: Commands } | null>;
}

type Brought = BundleTaken & { otherStation?: { id: string; name: string } };

/**
 * Brings a bundle in. A phone that holds nothing yet takes the bundle's station as its own; the page has to load anew
 * then, which the caller is told by `otherStation`.
 */
async function takeBundle(target: BundleTarget, file: File): Promise<Brought> {
  let { store, commands } = target;
  let otherStation: { id: string; name: string } | undefined;
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (!isZip(bytes)) return takeLines(commands, bytes);
  const read = await readBundle(bytes, (part) => bytesToHash(part.slice()));
  if (read.type !== 'bundle') {
    const what = read.type === 'newer-version' ? NEWER : `This is not a file of this app (${read.what}).`;
    return {
      type: 'refused',
      what,
      nextStep:
        read.type === 'newer-version'
          ? 'Update the app, then choose it again.'
          : 'Choose a file whose name ends in .asfound.zip.',
    };
  }
  const { content, damage, manifest } = read;
  if (manifest && manifest.station !== store.station) {
    const count = await store.run((db) => db.events.count());
    const empty = count.type === 'done' && count.value === 0;
    // The name becomes a database's name, and the file may come from anybody.
    const other = empty && ID_PATTERN.test(manifest.station) ? await target.openOther(manifest.station) : null;
    if (!other) {
      return {
        type: 'refused',
        what: `The file is of another station: ${manifest.stationName || manifest.station}.`,
        nextStep: 'Import it on a phone that is empty or works in that station.',
      };
    }
    ({ store, commands } = other);
    otherStation = { id: manifest.station, name: manifest.stationName };
  }
  let documents = 0;
  for (const [, bytes] of content.documents) {
    const kept = await commands.storeDocument(bytes.slice(), mimeOf(bytes), 'bundle');
    if (kept.type === 'stored') documents += 1;
  }
  const took = await commands.receive(content.events, 'bundle');
  if (took.type !== 'done')
    return {
      type: 'refused',
      what: 'The phone could not store it.',
      nextStep: 'Free some space and choose the file again.',
    };
  return {
    type: 'taken',
    events: took.value.added,
    documents,
    known: took.value.known,
    damaged: damage.map(({ entry, what }) => `${entry}: ${what}`),
    ...(otherStation ? { otherStation } : {}),
  };
}

/** The file of entries that were not saved: one to a line, each given a place in this phone's log. */
async function takeLines(commands: Commands, bytes: Uint8Array): Promise<BundleTaken> {
  const choose = { nextStep: 'Choose a file whose name ends in .asfound.zip, or the file not-saved.jsonl.' };
  if (bytes.length > MAX_UNSAVED_BYTES) {
    return { type: 'refused', what: 'This file is too large to hold only unsaved entries.', ...choose };
  }
  const lines = new TextDecoder().decode(bytes).split(/\r?\n/);
  const took = await commands.takeUnsaved(lines);
  if (took.type !== 'done')
    return {
      type: 'refused',
      what: 'The phone could not read its own record.',
      nextStep: 'Close the app, open it again and choose the file once more.',
    };
  const { added, known, waiting, foreign, newer, unreadable } = took.value;
  if (added + known + waiting === 0) {
    if (newer > 0) return { type: 'refused', what: NEWER, nextStep: 'Update the app, then choose it again.' };
    if (foreign > 0)
      return {
        type: 'refused',
        what: 'The entries in this file are of another station.',
        nextStep: 'Import it on a phone that works in that station.',
      };
    return { type: 'refused', what: 'This is not a file of this app (no entries in it).', ...choose };
  }
  const left: [number, string][] = [
    [foreign, 'of another station'],
    [newer, 'made by a newer version of the app'],
    [unreadable, 'unreadable'],
  ];
  const damaged = left.flatMap(([n, what]) => (n > 0 ? [`${n} ${n === 1 ? 'line' : 'lines'} ${what}`] : []));
  return { type: 'taken', events: added + waiting, documents: 0, known, damaged };
}

/** Brings a bundle in and goes on in its station; the page is loaded anew when that is another one. */
export async function bringBundle(
  { store, commands, directory, record }: ServiceParts,
  settings: () => PhoneSettings,
  file: File,
): Promise<BundleTaken> {
  const openOther = async (station: string) => {
    const opened = await openStation({ station });
    if (opened.type !== 'done') return null;
    return { store: opened.value, commands: commandsFor(opened.value, () => settings().author) };
  };
  const taken = await takeBundle({ store, commands, openOther }, file);
  // Another database is in force now, and this page holds the old one.
  if (taken.otherStation) {
    await directory.openedStation({ ...taken.otherStation, openedAt: now() });
    setTimeout(() => location.assign('/'), 0);
  } else await record.documentArrived();
  return taken;
}

function mimeOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xd8) return 'image/jpeg';
  if (bytes[0] === 0x89 && bytes[1] === 0x50) return 'image/png';
  if (bytes[0] === 0x1a && bytes[1] === 0x45) return 'audio/webm';
  if (bytes[4] === 0x66 && bytes[5] === 0x74 && bytes[6] === 0x79 && bytes[7] === 0x70) return 'audio/mp4';
  return 'application/json';
}

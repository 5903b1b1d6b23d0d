// The whole of a station's record as one ZIP: manifest.json, events.jsonl, documents/<sha256>. Events go in and come
// out as the exact text they were made with; what is damaged is named, and everything else is still handed over.
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import * as z from 'zod/mini';
import { CAPS, isZip } from './sheetError.ts';

const BUNDLE_CAPS = { bytes: 2_000_000_000, entries: 20_000, inflatedBytes: 2_000_000_000, ratio: 400 } as const;

const manifestSchema = z.object({
  format: z.literal('asfound-bundle'),
  version: z.number(),
  station: z.string(),
  stationName: z.string(),
  events: z.number(),
  documents: z.array(z.object({ sha256: z.string(), bytes: z.number() })),
});
type BundleManifest = z.infer<typeof manifestSchema>;

export interface BundleContent {
  station: string;
  stationName: string;
  /** Exact texts of the events. */
  events: string[];
  documents: Map<string, Uint8Array>;
}

interface BundleDamage {
  entry: string;
  type: 'missing' | 'hash-differs' | 'unreadable' | 'count-differs';
  what: string;
}

type BundleRead =
  | { type: 'bundle'; manifest: BundleManifest | null; content: BundleContent; damage: BundleDamage[] }
  | { type: 'not-a-bundle'; what: string }
  | { type: 'too-large'; what: string }
  | { type: 'newer-version'; version: number };

/** SHA-256 in hex; the platform's own, given by the caller. */
type Sha256 = (bytes: Uint8Array) => Promise<string>;

/** The same content gives the same bytes: entries in order, and one fixed date, since the events have their own. */
export function writeBundle(content: BundleContent): Uint8Array {
  const hashes = [...content.documents.keys()].sort();
  const manifest: BundleManifest = {
    format: 'asfound-bundle',
    version: 1,
    station: content.station,
    stationName: content.stationName,
    events: content.events.length,
    documents: hashes.map((sha256) => ({ sha256, bytes: content.documents.get(sha256)?.length ?? 0 })),
  };
  const entries: Zippable = {
    'manifest.json': strToU8(`${JSON.stringify(manifest, null, 2)}\n`),
    'events.jsonl': strToU8(content.events.map((text) => `${toLine(text)}\n`).join('')),
  };
  for (const sha256 of hashes) {
    const bytes = content.documents.get(sha256);
    // Photos are packed already.
    if (bytes) entries[`documents/${sha256}`] = [bytes, { level: isPacked(bytes) ? 0 : 6 }];
  }
  return zipSync(entries, { mtime: '2000-01-01T12:00:00' });
}

/** A line is an event. A text with a line break in it is written as a JSON string, so that it comes back exactly. */
function toLine(text: string): string {
  return text === '' || text.startsWith('"') || /[\r\n]/.test(text) ? JSON.stringify(text) : text;
}

function fromLine(line: string): string {
  if (!line.startsWith('"')) return line;
  try {
    return String(JSON.parse(line));
  } catch {
    return line;
  }
}

function isPacked(bytes: Uint8Array): boolean {
  return (bytes[0] === 0xff && bytes[1] === 0xd8) || isZip(bytes) || bytes[0] === 0x89;
}

export async function readBundle(bytes: Uint8Array, sha256: Sha256): Promise<BundleRead> {
  if (!isZip(bytes)) return { type: 'not-a-bundle', what: 'no ZIP archive' };
  if (bytes.length > BUNDLE_CAPS.bytes) return { type: 'too-large', what: `${bytes.length} bytes` };
  const names = listEntries(bytes);
  if (names.type !== 'entries') return names;
  const damage: BundleDamage[] = [];
  // One by one, so that one broken entry costs no other.
  const take = (name: string): Uint8Array | null => {
    if (!names.entries.has(name)) return null;
    try {
      return unzipSync(bytes, { filter: (entry) => entry.name === name })[name] ?? null;
    } catch {
      damage.push({ entry: name, type: 'unreadable', what: 'cannot be unpacked' });
      return null;
    }
  };
  const manifest = readManifest(take('manifest.json'), damage);
  if (manifest && manifest.version > 1) return { type: 'newer-version', version: manifest.version };
  const log = take('events.jsonl');
  if (!manifest && !log) return { type: 'not-a-bundle', what: 'neither a manifest nor events' };
  const events = log
    ? strFromU8(log)
        .split('\n')
        .filter((line) => line !== '')
        .map(fromLine)
    : [];
  if (!log) damage.push({ entry: 'events.jsonl', type: 'missing', what: 'no events' });
  if (log && manifest && manifest.events !== events.length) {
    damage.push({
      entry: 'events.jsonl',
      type: 'count-differs',
      what: `${events.length} events, ${manifest.events} announced`,
    });
  }
  const documents = new Map<string, Uint8Array>();
  for (const name of names.entries) {
    const wanted = /^documents\/([0-9a-f]{64})$/.exec(name)?.[1];
    const body = wanted === undefined ? null : take(name);
    if (wanted === undefined || !body) continue;
    const found = await sha256(body);
    if (found === wanted) documents.set(wanted, body);
    else damage.push({ entry: name, type: 'hash-differs', what: found });
  }
  for (const { sha256: wanted } of manifest?.documents ?? []) {
    const entry = `documents/${wanted}`;
    if (!names.entries.has(entry)) damage.push({ entry, type: 'missing', what: 'announced, but not there' });
  }
  const content = { station: manifest?.station ?? '', stationName: manifest?.stationName ?? '', events, documents };
  return { type: 'bundle', manifest, content, damage };
}

function listEntries(
  bytes: Uint8Array,
):
  | { type: 'entries'; entries: Set<string> }
  | { type: 'not-a-bundle'; what: string }
  | { type: 'too-large'; what: string } {
  const entries = new Set<string>();
  let inflated = 0;
  try {
    unzipSync(bytes, {
      filter: (entry) => {
        entries.add(entry.name);
        inflated += entry.originalSize;
        return false;
      },
    });
  } catch {
    return { type: 'not-a-bundle', what: 'the archive cannot be opened' };
  }
  if (entries.size > BUNDLE_CAPS.entries) return { type: 'too-large', what: `${entries.size} entries` };
  if (inflated > BUNDLE_CAPS.inflatedBytes || inflated > bytes.length * BUNDLE_CAPS.ratio + CAPS.bytes) {
    return { type: 'too-large', what: `${inflated} bytes when unpacked` };
  }
  return { type: 'entries', entries };
}

function readManifest(bytes: Uint8Array | null, damage: BundleDamage[]): BundleManifest | null {
  const broken = (what: string) => {
    damage.push({ entry: 'manifest.json', type: bytes ? 'unreadable' : 'missing', what });
    return null;
  };
  if (!bytes) return broken('no manifest');
  try {
    const read = manifestSchema.safeParse(JSON.parse(strFromU8(bytes)));
    return read.success ? read.data : broken('not of the expected form');
  } catch {
    return broken('not JSON');
  }
}

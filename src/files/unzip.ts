// The parts of a ZIP archive, unpacked under caps that are checked while unpacking: what the directory announces may be
// a lie. Nothing is unpacked that was not asked for, and no archive inside the archive is opened.
import { Inflate } from 'fflate';
import { CAPS, type SheetError } from './sheetError.ts';

type Unzipped = { type: 'parts'; parts: Map<string, Uint8Array> } | { type: 'sheet-error'; error: SheetError };

interface Entry {
  name: string;
  method: number;
  packed: Uint8Array;
}

/** Signatures and offsets: PKWARE APPNOTE 4.3.7, 4.3.12 and 4.3.16. */
const DIRECTORY_END = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;
const LOCAL_ENTRY = 0x04034b50;
const STEP = 65_536;

const failed = (type: SheetError['type'], what: string, where = ''): Unzipped => ({
  type: 'sheet-error',
  error: { type, what, where },
});

/** What the archive holds, by name; none where it cannot be opened. */
export function entryNames(bytes: Uint8Array): string[] {
  return (readDirectory(bytes) ?? []).map(({ name }) => name);
}

/** @param isWanted Which entries are unpacked, by name. */
export function unzipParts(bytes: Uint8Array, isWanted: (name: string) => boolean): Unzipped {
  const entries = readDirectory(bytes);
  if (entries === null) return failed('damaged', 'the archive cannot be opened');
  if (entries.length > CAPS.zipEntries) return failed('too-large', `${entries.length} entries`);
  const most = Math.min(CAPS.inflatedBytes, bytes.length * CAPS.zipRatio + 1_000_000);
  const parts = new Map<string, Uint8Array>();
  let total = 0;
  for (const { name, method, packed } of entries) {
    if (!isWanted(name)) continue;
    if (parts.has(name)) return failed('damaged', 'two entries of one name', name);
    const part = inflate(method, packed, most - total);
    if (part === 'too-large') return failed('too-large', `more than ${most} bytes when unpacked`, name);
    if (part === 'damaged') return failed('damaged', 'an entry cannot be unpacked', name);
    total += part.length;
    parts.set(name, part);
  }
  return { type: 'parts', parts };
}

function inflate(method: number, packed: Uint8Array, most: number): Uint8Array | 'too-large' | 'damaged' {
  if (method === 0) return packed.length > most ? 'too-large' : packed;
  if (method !== 8) return 'damaged';
  const chunks: Uint8Array[] = [];
  let length = 0;
  let isWhole = false;
  const inflater = new Inflate((chunk, final) => {
    length += chunk.length;
    isWhole ||= final;
    if (length <= most) chunks.push(chunk);
  });
  try {
    // Small steps in, so that a part of zeros is given up soon after the cap and not at its end.
    for (let at = 0; at < packed.length && length <= most; at += STEP) {
      inflater.push(packed.subarray(at, at + STEP), at + STEP >= packed.length);
    }
  } catch {
    return length > most ? 'too-large' : 'damaged';
  }
  if (length > most) return 'too-large';
  if (!isWhole) return 'damaged';
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

/** Null when the directory is missing or points outside the file. */
function readDirectory(bytes: Uint8Array): Entry[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = findDirectoryEnd(view);
  if (end === null) return null;
  const count = view.getUint16(end + 10, true);
  const entries: Entry[] = [];
  let at = view.getUint32(end + 16, true);
  for (let i = 0; i < count; i += 1) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== DIRECTORY_ENTRY) return null;
    const size = view.getUint32(at + 20, true);
    const nameLength = view.getUint16(at + 28, true);
    const local = view.getUint32(at + 42, true);
    if (local + 30 > bytes.length || view.getUint32(local, true) !== LOCAL_ENTRY) return null;
    const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    if (start + size > bytes.length) return null;
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength));
    entries.push({ name, method: view.getUint16(at + 10, true), packed: bytes.subarray(start, start + size) });
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (entries.length > CAPS.zipEntries) break;
  }
  return entries;
}

/** The record stands at the end, before a remark of at most 65,535 bytes. */
function findDirectoryEnd(view: DataView): number | null {
  for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 22 - 65_535); at -= 1) {
    if (view.getUint32(at, true) === DIRECTORY_END) return at;
  }
  return null;
}

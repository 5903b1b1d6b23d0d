// The station's record as one file: back as it was, and damage named while the rest is kept.
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { type BundleContent, readBundle, writeBundle } from '../../src/files/bundle.ts';

const hash = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const sha256 = async (bytes: Uint8Array) => hash(bytes);

function content(events: string[], documents: Uint8Array[]): BundleContent {
  return {
    station: 's1',
    stationName: 'Fennigmoor',
    events,
    documents: new Map(documents.map((bytes) => [hash(bytes), bytes])),
  };
}
async function read(bytes: Uint8Array) {
  const result = await readBundle(bytes, sha256);
  if (result.type !== 'bundle') throw new Error(result.type);
  return result;
}
const photo = new Uint8Array([0xff, 0xd8, 1, 2, 3]);
const page = strToU8('{"plan":1}');
const whole = writeBundle(content(['{"a":1}', '{"b":"é"}'], [photo, page]));

describe('bundles', () => {
  it('give back every event text and document exactly, whatever is in them', async () => {
    const text = fc.string({ unit: 'grapheme' });
    await fc.assert(
      fc.asyncProperty(
        fc.array(text),
        fc.uniqueArray(fc.uint8Array(), { selector: hash }),
        async (events, documents) => {
          const written = content(events, documents);
          const result = await read(writeBundle(written));
          expect(result.damage).toEqual([]);
          expect(result.content.events).toEqual(events);
          expect([...result.content.documents].sort()).toEqual([...written.documents].sort());
        },
      ),
      { numRuns: 60 },
    );
  });

  it('are the same bytes for the same content, in whatever order the documents came', () => {
    expect(writeBundle(content(['{"a":1}', '{"b":"é"}'], [page, photo]))).toEqual(whole);
  });

  it('name a document whose bytes do not fit its name, and keep the rest', async () => {
    const entries = unzipSync(whole);
    entries[`documents/${hash(photo)}`] = new Uint8Array([9]);
    const result = await read(zipSync(entries));
    expect(result.damage).toMatchObject([{ entry: `documents/${hash(photo)}`, type: 'hash-differs' }]);
    expect([...result.content.documents.keys()]).toEqual([hash(page)]);
    expect(result.content.events).toHaveLength(2);
  });

  it('name what was announced and is not there', async () => {
    const entries = unzipSync(whole);
    delete entries[`documents/${hash(page)}`];
    entries['events.jsonl'] = strToU8('{"a":1}\n');
    const { damage } = await read(zipSync(entries));
    expect(damage.map((one) => one.type)).toEqual(['count-differs', 'missing']);
  });

  it('still give events and documents when the manifest is broken', async () => {
    const result = await read(zipSync({ ...unzipSync(whole), 'manifest.json': strToU8('{') }));
    expect(result.damage).toMatchObject([{ entry: 'manifest.json', type: 'unreadable' }]);
    expect(result.content.events).toHaveLength(2);
    expect(result.content.documents.size).toBe(2);
  });

  it('lose one entry only when its packed bytes are broken', async () => {
    const entries = unzipSync(whole);
    const log = strToU8('{"a":1}\n'.repeat(2000));
    const bytes = zipSync({ ...entries, 'events.jsonl': log });
    // The packed stream stands behind the entry's local header of 30 bytes and its name.
    const at = Buffer.from(bytes).indexOf('events.jsonl') + 'events.jsonl'.length;
    bytes.fill(0xff, at, at + 8);
    const result = await read(bytes);
    expect(result.damage).toContainEqual(expect.objectContaining({ entry: 'events.jsonl', type: 'unreadable' }));
    expect(result.content.documents.size).toBe(2);
  });

  it('are told from other files, from newer ones and from bombs', async () => {
    expect(await readBundle(strToU8('hello'), sha256)).toMatchObject({ type: 'not-a-bundle' });
    expect(await readBundle(zipSync({ a: strToU8('a') }), sha256)).toMatchObject({ type: 'not-a-bundle' });
    const newer = strToU8(
      JSON.stringify({ format: 'asfound-bundle', version: 2, station: '', stationName: '', events: 0, documents: [] }),
    );
    expect(await readBundle(zipSync({ 'manifest.json': newer }), sha256)).toEqual({
      type: 'newer-version',
      version: 2,
    });
    const bomb = zipSync({ 'manifest.json': newer, 'events.jsonl': new Uint8Array(60_000_000) });
    expect(await readBundle(bomb, sha256)).toMatchObject({ type: 'too-large' });
  });
});

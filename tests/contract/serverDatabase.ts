// What the server's stores promise, whichever database is below them.
import { afterAll, beforeAll, expect, test } from 'vitest';
import { receiveBody } from '../../src/server/bodies.ts';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { askForCode } from '../../src/server/phones/pairCommand.ts';
import { listPhones, makeCode, pairPhone, revokePhone, tokenToPhone } from '../../src/server/phones/pairing.ts';
import { documentHead, documentStream, keepDocument } from '../../src/server/stores/documentStore.ts';
import { pullEvents } from '../../src/server/stores/eventPull.ts';
import { pushEvents } from '../../src/server/stores/eventStore.ts';
import { readNumbers } from '../../src/server/stores/numbers.ts';
import { DOCUMENT_CHUNK_BYTES } from '../../src/wire/limits.ts';
import { CODE_LIFE_MS } from '../../src/wire/sync.ts';
import { countingRandom, eventText, OTHER, STATION, sha } from '../server/help.ts';

export function describeServerDatabase(address: () => Promise<DatabaseAddress>): void {
  let db: Database;
  let at: DatabaseAddress;
  const random = countingRandom();
  let now = 1_800_000_000_000;

  const pull = async (after: string, limit: number) => await pullEvents(db, STATION.id, { after, limit, now });

  beforeAll(async () => {
    at = await address();
    db = await openDatabase(at);
  });
  afterAll(async () => await db?.close());

  test('the first code has no station, and the phone brings one', async () => {
    const asked = await askForCode(db, random, now, { type: 'any' });
    if (asked.type !== 'code') throw new Error(asked.sentence);
    const { code } = asked.made;
    expect(asked.made.station).toBeNull();
    expect(await pairPhone(db, random, now, { code, phone: 'A', station: null })).toEqual({ type: 'station-needed' });
    const paired = await pairPhone(db, random, now, { code, phone: 'A', station: STATION });
    if (paired.type !== 'paired') throw new Error(paired.type);
    expect(paired.answer.station).toEqual(STATION);
    expect(await tokenToPhone(db, paired.answer.token, now)).toMatchObject({ type: 'phone', station: STATION });
    expect(await pairPhone(db, random, now, { code, phone: 'B', station: STATION })).toEqual({ type: 'code-used' });
  });

  test('the next code is bound to the only station and refuses a phone of another without being used up', async () => {
    const asked = await askForCode(db, random, now, { type: 'any' });
    if (asked.type !== 'code') throw new Error(asked.sentence);
    expect(asked.made.station).toEqual(STATION);
    const { code } = asked.made;
    const refused = await pairPhone(db, random, now, { code, phone: 'B', station: OTHER });
    expect(refused).toEqual({ type: 'station-differs', station: STATION.name });
    const paired = await pairPhone(db, random, now, { code, phone: 'B', station: null });
    expect(paired).toMatchObject({ type: 'paired', answer: { station: STATION } });
  });

  test('a code for a new station does not open one that is there', async () => {
    const { code } = await makeCode(db, random, now, null);
    const refused = await pairPhone(db, random, now, { code, phone: 'C', station: STATION });
    expect(refused).toEqual({ type: 'station-differs', station: STATION.name });
    expect((await pairPhone(db, random, now, { code, phone: 'C', station: OTHER })).type).toBe('paired');
    expect(await askForCode(db, random, now, { type: 'any' })).toMatchObject({
      type: 'which',
      stations: { length: 2 },
    });
  });

  test('of two phones with one code at the same moment, one is paired', async () => {
    const { code } = await makeCode(db, random, now, STATION);
    const outcomes = await Promise.all(
      ['D', 'E', 'F'].map((phone) => pairPhone(db, random, now, { code, phone, station: null })),
    );
    expect(outcomes.map((outcome) => outcome.type).sort()).toEqual(['code-used', 'code-used', 'paired']);
  });

  test('a code is worth nothing after fifteen minutes, and neither is a guess', async () => {
    const { code } = await makeCode(db, random, now, STATION);
    const late = await pairPhone(db, random, now + CODE_LIFE_MS, { code, phone: 'G', station: null });
    expect(late).toEqual({ type: 'code-expired' });
    const guess = await pairPhone(db, random, now, { code: '2222222222', phone: 'G', station: null });
    expect(guess).toEqual({ type: 'code-unknown' });
  });

  test('a revoked phone is known as revoked, and another station cannot revoke it', async () => {
    const { code } = await makeCode(db, random, now, STATION);
    const paired = await pairPhone(db, random, now, { code, phone: 'H', station: null });
    if (paired.type !== 'paired') throw new Error(paired.type);
    const { phoneId, token } = paired.answer;
    expect(await revokePhone(db, OTHER.id, phoneId, now)).toBe(false);
    expect((await tokenToPhone(db, token, now)).type).toBe('phone');
    expect(await revokePhone(db, STATION.id, phoneId, now)).toBe(true);
    expect(await revokePhone(db, STATION.id, phoneId, now + 5)).toBe(true);
    expect((await tokenToPhone(db, token, now)).type).toBe('revoked');
    const listed = (await listPhones(db, STATION.id)).find((phone) => phone.id === phoneId);
    expect(listed).toMatchObject({ name: 'H', revoked_at: now, paired_at: now });
  });

  test('events keep their exact text, their number and their answer when sent again', async () => {
    const odd = eventText('odd', { payload: { text: 'é “Ω” 🎚 \u0000 \\ \n' } }).replace('{"v"', '{ "v"');
    const texts = [eventText('one'), odd, eventText('one')];
    const first = await pushEvents(db, STATION.id, texts, now);
    expect(first.map((answer) => answer.type)).toEqual(['stored', 'stored', 'already']);
    const again = await pushEvents(db, STATION.id, texts, now);
    expect(again.map((answer) => answer.type)).toEqual(['already', 'already', 'already']);
    expect(again.map((answer) => 'number' in answer && answer.number)).toEqual([1, 2, 1]);
    const pulled = await pull('0', 10);
    expect(pulled).toMatchObject({ more: false, events: [{ number: 1 }, { number: 2, text: odd }] });
  });

  test('the same id with another text is set aside, twice as well, and the first stays', async () => {
    await pushEvents(db, STATION.id, [eventText('one')], now);
    const forged = eventText('one', { author: 'Someone else' });
    for (let turn = 0; turn < 2; turn += 1) {
      const answers = await pushEvents(db, STATION.id, [forged], now);
      expect(answers).toEqual([{ type: 'set-aside', why: 'same-id-other-text' }]);
    }
    const kept = await db.query.selectFrom('set_aside').select(['text', 'hash']).execute();
    expect(kept).toEqual([{ text: forged, hash: sha(forged) }]);
    const held = await db.query.selectFrom('events').select('text').where('id', '=', 'one').execute();
    expect(held).toEqual([{ text: eventText('one') }]);
  });

  test('what cannot be taken is refused with its reason, and the rest of the batch goes in', async () => {
    const texts = [
      'not json',
      eventText('elsewhere', { station: OTHER.id }),
      eventText('../../etc'),
      eventText('long', { payload: { text: 'x'.repeat(70_000) } }),
      eventText('half').replace('note of', '\ud800'),
      eventText('split', { seq: 1.5 }),
      eventText('good'),
      eventText('newer', { v: 99, kind: 'not-invented-yet', payload: 3 }),
    ];
    const answers = await pushEvents(db, STATION.id, texts, now);
    expect(answers.map((answer) => ('why' in answer ? answer.why : answer.type))).toEqual([
      'unreadable',
      'other-station',
      'hostile-id',
      'too-long',
      'unreadable',
      'unreadable',
      'stored',
      'stored',
    ]);
  });

  test('numbers of one station have no gap and no two events, however many phones push at once', async () => {
    const before = await db.query.selectFrom('events').select('id').where('station', '=', STATION.id).execute();
    const batches = Array.from({ length: 8 }, (_, phone) =>
      // Neighbours overlap by half, as after a lost answer.
      Array.from({ length: 20 }, (_, i) => eventText(`p${phone * 10 + i}`)),
    );
    await Promise.all(batches.map((texts) => pushEvents(db, STATION.id, texts, now)));
    const rows = await db.query
      .selectFrom('events')
      .select('number')
      .where('station', '=', STATION.id)
      .orderBy('number')
      .execute();
    expect(rows.map((row) => row.number)).toEqual(Array.from({ length: before.length + 90 }, (_, i) => i + 1));
  });

  test('a reader that follows the cursor while others push misses nothing', async () => {
    const pushes = Array.from({ length: 12 }, (_, i) => [`r${i}a`, `r${i}b`]);
    const seen: string[] = [];
    let cursor = '0';
    const read = async () => {
      const pulled = await pull(cursor, 7);
      if ('type' in pulled) throw new Error(pulled.type);
      cursor = pulled.next;
      seen.push(...pulled.events.map((event) => event.text));
      return pulled.more;
    };
    const reading = (async () => {
      for (let turn = 0; turn < 20; turn += 1) await read();
    })();
    await Promise.all([
      reading,
      ...pushes.map((ids) =>
        pushEvents(
          db,
          STATION.id,
          ids.map((id) => eventText(id)),
          now,
        ),
      ),
    ]);
    while (await read());
    const all = await db.query
      .selectFrom('events')
      .select('text')
      .where('station', '=', STATION.id)
      .orderBy('number')
      .execute();
    expect(seen).toEqual(all.map((row) => row.text));
  });

  test('a cursor of another history is lost, and another station sees nothing', async () => {
    expect(await pull(`1-${'0'.repeat(16)}`, 10)).toEqual({ type: 'cursor-lost' });
    expect(await pull(`999999-${'0'.repeat(16)}`, 10)).toEqual({ type: 'cursor-lost' });
    expect(await pullEvents(db, OTHER.id, { after: '0', limit: 10, now })).toMatchObject({
      events: [],
      next: '0',
      more: false,
    });
  });

  test('a document of several chunks comes back byte for byte, once, and only to its station', async () => {
    const bytes = new Uint8Array(2 * DOCUMENT_CHUNK_BYTES + 17).map((_, i) => (i * 31 + (i >> 8)) % 256);
    const chunks: Uint8Array[] = [];
    const body = await receiveBody(new Response(bytes).body, bytes.byteLength, (chunk) => void chunks.push(chunk));
    if (body.type !== 'received') throw new Error(body.type);
    expect(body.sha).toBe(sha(bytes));
    const wanted = { sha: body.sha, bytes: body.bytes, mime: 'application/octet-stream' as const };
    const top = (await readNumbers(db, STATION.id)).next;
    const keep = async () => await keepDocument(db, STATION.id, wanted, (n) => chunks[n] ?? null, now);
    const both = await Promise.all([keep(), keep()]);
    expect(both.map((kept) => kept.type).sort()).toEqual(['already', 'stored']);
    // One number for it, of the same row as the events'.
    expect(both.map((kept) => 'number' in kept && kept.number)).toEqual([top, top]);
    const head = await documentHead(db, STATION.id, body.sha);
    expect(head).toEqual({ ...wanted, number: top });
    expect(await documentHead(db, OTHER.id, body.sha)).toBeNull();
    const stream = head && (await documentStream(db, STATION.id, head, now));
    expect(sha(new Uint8Array(await new Response(stream).arrayBuffer()))).toBe(body.sha);
    const [after] = await pushEvents(db, STATION.id, [eventText('after-the-document')], now);
    expect(after).toEqual({ type: 'stored', number: top + 1 });
    const longest = await db.query.selectFrom('chunks').select('bytes').where('sha', '=', body.sha).execute();
    expect(longest.map((chunk) => chunk.bytes.byteLength)).toEqual([DOCUMENT_CHUNK_BYTES, DOCUMENT_CHUNK_BYTES, 17]);
  });

  test('opening the same database again changes nothing', async () => {
    now += 1000;
    const count = await db.query.selectFrom('events').select('id').execute();
    await db.close();
    db = await openDatabase(at);
    expect(await db.query.selectFrom('events').select('id').execute()).toHaveLength(count.length);
  });
}

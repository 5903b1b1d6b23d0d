// Codes, tokens, phones and stations: who may speak for which station. Codes and tokens are kept as hashes only; a
// code works once and for fifteen minutes.
import type { Kysely, Transaction } from 'kysely';
import type { StationName } from '../../wire/sync.ts';
import {
  CODE_ALPHABET,
  CODE_LENGTH,
  CODE_LIFE_MS,
  ID_PATTERN,
  type PairAnswer,
  type PairRequest,
  textToCode,
} from '../../wire/sync.ts';
import type { Database } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';
import { textToHash } from '../hash.ts';

/** So many random bytes. */
export type Random = (bytes: number) => Uint8Array;

export type MadeCode = { code: string; expiresAt: number; station: StationName | null };

/** A new code; with a station, only for phones of that station. `madeBy` is the phone that asked, null the terminal. */
export async function makeCode(
  db: Database,
  random: Random,
  now: number,
  station: StationName | null,
  madeBy: string | null = null,
): Promise<MadeCode> {
  const code = randomCode(random);
  const expiresAt = now + CODE_LIFE_MS;
  // Codes that ended a day ago can teach nobody anything any more.
  await db.query
    .deleteFrom('codes')
    .where('expires_at', '<', now - 86_400_000)
    .execute();
  await db.query
    .insertInto('codes')
    .values({
      hash: textToHash(code),
      station: station?.id ?? null,
      expires_at: expiresAt,
      used_at: null,
      made_by: madeBy,
    })
    .execute();
  return { code, expiresAt, station };
}

function randomCode(random: Random): string {
  let code = '';
  // Bytes beyond the last whole multiple would favour the first letters.
  const fair = 256 - (256 % CODE_ALPHABET.length);
  while (code.length < CODE_LENGTH) {
    for (const byte of random(CODE_LENGTH)) {
      if (byte < fair && code.length < CODE_LENGTH) code += CODE_ALPHABET[byte % CODE_ALPHABET.length];
    }
  }
  return code;
}

type PairOutcome =
  | { type: 'paired'; answer: PairAnswer }
  | { type: 'code-unknown' | 'code-used' | 'code-expired' | 'station-needed' }
  | { type: 'station-differs'; station: string };

/** Swaps a code for a token. A refusal leaves the code unused, so that the right phone can still take it. */
export async function pairPhone(db: Database, random: Random, now: number, request: PairRequest): Promise<PairOutcome> {
  const code = textToCode(request.code);
  if (!code) return { type: 'code-unknown' };
  const hash = textToHash(code);
  return await db.query.transaction().execute(async (tx) => {
    // Taking the code first locks its row: of two phones with one code, the second waits here and then finds it used.
    const claimed = await tx
      .updateTable('codes')
      .set({ used_at: now })
      .where('hash', '=', hash)
      .where('used_at', 'is', null)
      .where('expires_at', '>', now)
      .returning(['station', 'made_by'])
      .executeTakeFirst();
    if (!claimed) return await whyNot(tx, hash);
    const station = await chooseStation(tx, random, now, claimed.station, request.station);
    if (!('id' in station)) {
      await tx.updateTable('codes').set({ used_at: null }).where('hash', '=', hash).execute();
      return station;
    }
    const token = base64url(random(32));
    const phoneId = `p-${base64url(random(12)).replace(/[-_]/g, 'x')}`;
    await tx
      .insertInto('phones')
      .values({
        id: phoneId,
        station: station.id,
        name: request.phone,
        token_hash: textToHash(token),
        paired_at: now,
        seen_at: null,
        revoked_at: null,
        // Whoever begins a station answers for who is in it.
        keeper: claimed.station === null ? 1 : 0,
        invited_by: claimed.made_by,
      })
      .execute();
    const { id, name, history } = station;
    return { type: 'paired', answer: { token, phoneId, station: { id, name }, history } };
  });
}

async function whyNot(tx: Transaction<Tables>, hash: string): Promise<PairOutcome> {
  const row = await tx.selectFrom('codes').select('used_at').where('hash', '=', hash).executeTakeFirst();
  if (!row) return { type: 'code-unknown' };
  return { type: row.used_at === null ? 'code-expired' : 'code-used' };
}

async function chooseStation(
  tx: Transaction<Tables>,
  random: Random,
  now: number,
  bound: string | null,
  brought: StationName | null,
): Promise<Tables['stations'] | PairOutcome> {
  if (bound !== null) {
    const station = await tx.selectFrom('stations').selectAll().where('id', '=', bound).executeTakeFirstOrThrow();
    return brought && brought.id !== bound ? { type: 'station-differs', station: station.name } : station;
  }
  if (!brought) return { type: 'station-needed' };
  const there = await tx.selectFrom('stations').select('name').where('id', '=', brought.id).executeTakeFirst();
  // A code for a new station must not open one that others already work in.
  if (there) return { type: 'station-differs', station: there.name };
  const history = makeHistory(random);
  const station = { id: brought.id, name: brought.name, next_number: 1, history, made_at: now };
  await tx.insertInto('stations').values(station).execute();
  return station;
}

/** Names one numbering of a station's events; a restored database begins another one. */
export function makeHistory(random: Random): string {
  return `h-${base64url(random(12)).replace(/[-_]/g, 'x')}`;
}

export type KnownPhone =
  | { type: 'phone'; id: string; station: StationName }
  | { type: 'unknown' }
  | { type: 'revoked' };

export async function tokenToPhone(db: Database, token: string, now: number): Promise<KnownPhone> {
  const row = await db.query
    .selectFrom('phones')
    .innerJoin('stations', 'stations.id', 'phones.station')
    .select(['phones.id', 'phones.station', 'phones.seen_at', 'phones.revoked_at', 'stations.name as stationName'])
    .where('token_hash', '=', textToHash(token))
    .executeTakeFirst();
  if (!row) return { type: 'unknown' };
  if (row.revoked_at !== null) return { type: 'revoked' };
  // Once a minute is enough for a list that people read.
  if (row.seen_at === null || now - row.seen_at > 60_000) {
    await db.query.updateTable('phones').set({ seen_at: now }).where('id', '=', row.id).execute();
  }
  return { type: 'phone', id: row.id, station: { id: row.station, name: row.stationName } };
}

export type ListedPhone = Omit<Tables['phones'], 'token_hash'>;

export async function listPhones(db: Database, station: string): Promise<ListedPhone[]> {
  return await db.query
    .selectFrom('phones')
    .select(['id', 'station', 'name', 'paired_at', 'seen_at', 'revoked_at', 'keeper', 'invited_by'])
    .where('station', '=', station)
    .orderBy('paired_at')
    .orderBy('id')
    .execute();
}

/** Whether a phone may remove another: itself, those it let in, and as a keeper every one of its station. */
export function mayRemove(asker: Pick<ListedPhone, 'id' | 'keeper'>, other: ListedPhone): boolean {
  return asker.id === other.id || asker.keeper === 1 || other.invited_by === asker.id;
}

type Removal = 'removed' | 'not-found' | 'not-allowed';

/** Removes a phone in the name of another one. */
export async function removePhone(
  db: Database,
  asker: { id: string; station: string },
  id: string,
  now: number,
): Promise<Removal> {
  // An id that no phone can have need not reach a database, which may not even be able to hold it.
  if (!ID_PATTERN.test(id)) return 'not-found';
  const phones = await listPhones(db, asker.station);
  const mine = phones.find((phone) => phone.id === asker.id);
  const other = phones.find((phone) => phone.id === id);
  if (!mine || !other) return 'not-found';
  if (!mayRemove(mine, other)) return 'not-allowed';
  return (await revokePhone(db, asker.station, id, now)) ? 'removed' : 'not-found';
}

/** Whoever asks has been judged already. False when the station has no such phone. */
export async function revokePhone(db: Database, station: string, id: string, now: number): Promise<boolean> {
  return await db.query.transaction().execute(async (tx) => {
    const revoked = await tx
      .updateTable('phones')
      .set((eb) => ({ revoked_at: eb.fn.coalesce('revoked_at', eb.val(now)) }))
      .where('station', '=', station)
      .where('id', '=', id)
      .executeTakeFirst();
    if (revoked.numUpdatedRows === 0n) return false;
    // Neither is it anywhere now, nor do the codes that it gave out still open the station.
    await tx.deleteFrom('presence').where('station', '=', station).where('phone', '=', id).execute();
    await tx.deleteFrom('codes').where('made_by', '=', id).where('used_at', 'is', null).execute();
    return true;
  });
}

export async function listStations(query: Kysely<Tables>): Promise<StationName[]> {
  return await query.selectFrom('stations').select(['id', 'name']).orderBy('made_at').orderBy('id').execute();
}

function base64url(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64url');
}

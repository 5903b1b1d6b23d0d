// The phones of the stations, for whoever sits at the server: list them, remove one, say who may remove the others.
// The terminal may do what no phone may; it judges nobody.
import { ID_PATTERN } from '../../wire/sync.ts';
import type { Database } from '../database/database.ts';
import { type ListedPhone, listPhones, listStations, revokePhone } from './pairing.ts';

type PhonesAsked = { type: 'list' } | { type: 'remove' | 'keeper'; id: string };

/** Arguments after `--phones`: nothing, or `--remove` or `--keeper` and a phone's id; null when it is none of these. */
export function readPhonesAsked(args: string[]): PhonesAsked | null {
  const [what, id, more] = args;
  if (what === undefined) return { type: 'list' };
  if (id === undefined || more !== undefined) return null;
  return what === '--remove' || what === '--keeper' ? { type: what === '--remove' ? 'remove' : 'keeper', id } : null;
}

export const PHONES_USAGE =
  'Use npm run phones, npm run phones -- --remove ID, or npm run phones -- --keeper ID, with an id from the list.';

/** What is to be printed, and whether it was done. */
export async function runPhones(
  db: Database,
  now: number,
  asked: PhonesAsked | null,
): Promise<{ text: string; done: boolean }> {
  if (asked === null) return { text: PHONES_USAGE, done: false };
  if (asked.type === 'list') return { text: await listText(db), done: true };
  const phone = ID_PATTERN.test(asked.id) ? await findPhone(db, asked.id) : null;
  if (!phone) return { text: `No phone has the id “${asked.id}”. ${PHONES_USAGE}`, done: false };
  if (asked.type === 'remove') {
    await revokePhone(db, phone.station, phone.id, now);
    return { text: `${phone.name} (${phone.id}) is removed. What it has sent stays.`, done: true };
  }
  if (phone.revoked_at !== null) return { text: `${phone.name} is removed and can look after nothing.`, done: false };
  await db.query.updateTable('phones').set({ keeper: 1 }).where('id', '=', phone.id).execute();
  return { text: `${phone.name} (${phone.id}) may now remove every other phone of its station.`, done: true };
}

async function findPhone(db: Database, id: string): Promise<ListedPhone | null> {
  for (const station of await listStations(db.query)) {
    const phone = (await listPhones(db, station.id)).find((one) => one.id === id);
    if (phone) return phone;
  }
  return null;
}

async function listText(db: Database): Promise<string> {
  const stations = await listStations(db.query);
  if (stations.length === 0) return 'There is no station here yet, and so no phone.';
  const parts: string[] = [];
  for (const station of stations) {
    const phones = await listPhones(db, station.id);
    const lines = phones.map((phone) => phoneText(phone, phones));
    parts.push(
      [`${phones.length} ${phones.length === 1 ? 'phone' : 'phones'} of ${station.name}:`, ...lines].join('\n'),
    );
  }
  return parts.join('\n\n');
}

function phoneText(phone: ListedPhone, phones: ListedPhone[]): string {
  const inviter = phones.find((one) => one.id === phone.invited_by);
  const facts = [
    `paired ${dayText(phone.paired_at)}`,
    phone.seen_at === null ? 'never heard from' : `last heard from ${dayText(phone.seen_at)}`,
    ...(inviter ? [`let in by ${inviter.name}`] : []),
    ...(phone.keeper === 1 ? ['may remove every other'] : []),
    ...(phone.revoked_at === null ? [] : [`REMOVED ${dayText(phone.revoked_at)}`]),
  ];
  return `  ${phone.id}  ${phone.name}: ${facts.join(', ')}`;
}

function dayText(at: number): string {
  return `${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
}

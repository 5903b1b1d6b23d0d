// The seeded fault run: phones walk and send while the way, the server, the clocks and strangers do their worst, and in
// the end everybody has to hold the same, byte for byte and once. Chance comes from the seed alone; what two processes
// do at one moment does not.
import { createHash } from 'node:crypto';
import { CURSOR_START, pullAnswerSchema, type StationName, WIRE_HEADER, WIRE_VERSION } from '../../src/wire/sync.ts';
import { ACTS, byWeight, type Guest, type Run, seeded } from './faultActs.ts';
import { openFaultPhone } from './faultPhone.ts';
import { CALM, createFaultProxy, type FaultProxy, ROUGH } from './faultProxy.ts';
import { heldByServer, type ServerParts, startFaultServer } from './faultServer.ts';
import { type FaultCounts, judge, noCounts, type Verdict } from './faultVerdict.ts';

const STATION = { id: 'st-faults', name: 'Skerry Rock Radio' };

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

export type FaultOptions = {
  seed: number;
  phones: number;
  /** Ends the faults when it says so; asked before each act. */
  over: (act: number) => boolean;
  server: ServerParts;
  /** Phones that are there before the others, as real browsers, and the station they brought. */
  guests?: (origin: string, code: () => Promise<string>) => Promise<{ guests: Guest[]; station: StationName }>;
  say: (text: string) => void;
};

/** Acts that a short run must not miss, by their share of it. */
const MUST: [number, string][] = [
  [0.1, 'way'],
  [0.15, 'photo'],
  [0.2, 'backup'],
  [0.3, 'kill in mid-request'],
  [0.35, 'poison'],
  [0.45, 'kill'],
  [0.5, 'damage'],
  [0.6, 'restore'],
  [0.7, 'clock'],
  [0.75, 'kill in mid-request'],
];

/** @param length Of the run in acts, where it is known: then nothing that it must see is left to chance. */
export async function faultRun(options: FaultOptions, length = 0): Promise<FaultCounts> {
  const server = await startFaultServer(options.server);
  const proxy = await createFaultProxy({ port: server.port, random: seeded(options.seed ^ 0x5bd1e995) });
  const random = seeded(options.seed);
  const [counts, underWay] = [noCounts(proxy), new Set<Promise<void>>()];
  const run: Run = { random, server, proxy, station: STATION, phones: [], guests: [], tokens: [], counts, underWay };
  try {
    await gather(run, options);
    proxy.setChances(ROUGH);
    await act(run, options, length);
    proxy.onNextForward(() => undefined);
    await Promise.all(underWay);
    proxy.setChances(CALM);
    return await heal(run, options);
  } finally {
    for (const phone of run.phones) phone.close();
    for (const guest of run.guests) await guest.close();
    await proxy.close();
    await server.stop();
  }
}

async function gather(run: Run, { phones, guests }: FaultOptions): Promise<void> {
  const { server, proxy, tokens } = run;
  const origin = `http://127.0.0.1:${proxy.port}`;
  const joined = await guests?.(origin, server.code);
  run.station = joined?.station ?? STATION;
  run.guests = joined?.guests ?? [];
  for (let i = 0; i < phones; i += 1) {
    const phone = await openFaultPhone(`ph${i}`, run.station, origin);
    run.phones.push(phone);
    tokens.push(await phone.pair(await server.code()));
  }
}

async function act(run: Run, { over, say }: FaultOptions, length: number): Promise<void> {
  const { random, proxy, counts } = run;
  const must = new Map(MUST.map(([share, name]) => [Math.floor(share * length), name]));
  for (let n = 0; !over(n); n += 1) {
    const chosen = byWeight(random, ACTS);
    const next = ACTS.find((one) => length > 0 && one.name === must.get(n)) ?? chosen;
    // A server that is down takes no poison.
    await next.run(run).catch((error: unknown) => {
      if (next.name !== 'poison') throw error;
    });
    counts.acts += 1;
    if (counts.acts % 500 === 0) say(`${counts.acts} acts, ${proxy.met()} requests …`);
    await traffic(proxy, 1 + Math.floor(random() * 4));
  }
}

/** Until so many more requests have met their fate; a phone that rests for long does not hold it up. */
async function traffic(proxy: FaultProxy, more: number): Promise<void> {
  const until = proxy.met() + more;
  const patience = Date.now() + 300;
  while (proxy.met() < until && Date.now() < patience) await new Promise((on) => setTimeout(on, 2));
}

/** As a new phone of the station would, straight at the server: that is when damage there is noticed, before any scrub. */
async function readEverything({ server, tokens }: Run, documents: Set<string>): Promise<void> {
  const headers = { [WIRE_HEADER]: String(WIRE_VERSION), authorization: `Bearer ${tokens[0]}` };
  const origin = `http://127.0.0.1:${server.port()}/api`;
  for (let after = CURSOR_START, more = true; more; ) {
    const answer = await fetch(`${origin}/events?after=${after}`, { headers });
    const read = pullAnswerSchema.parse(await answer.json());
    ({ next: after, more } = read);
  }
  for (const name of documents) {
    const answer = await fetch(`${origin}/documents/${name}`, { headers });
    // One that shows to be damaged at its end breaks off there.
    await answer.arrayBuffer().catch(() => undefined);
  }
}

const MOST_ROUNDS = 25;

async function heal(run: Run, options: FaultOptions): Promise<FaultCounts> {
  const { proxy, phones, guests, counts } = run;
  // After everything that was done to it, each can still write.
  for (const phone of phones) await phone.note(`${phone.name} ends`);
  const all = [...phones, ...guests];
  const browsers = new Set<object>(guests);
  for (const guest of guests) await guest.held();
  const entries = new Map(all.flatMap((one) => [...one.made]));
  const documents = new Set(all.flatMap((one) => [...one.taken]));
  counts.entries = entries.size;
  counts.documents = documents.size;
  for (const phone of phones) for (const name of documents) await phone.want(name);
  await readEverything(run, documents);
  let verdicts: Verdict[] = [];
  while (counts.rounds < MOST_ROUNDS) {
    counts.rounds += 1;
    const ends = await Promise.all(all.map((one) => one.nextDay()));
    // A browser fetches what somebody opens, and nobody opens every photo there.
    const wanted = (one: (typeof all)[number]) => (browsers.has(one) ? one.taken : documents);
    verdicts = await Promise.all(all.map(async (one) => judge(one.name, await one.held(), entries, wanted(one))));
    const waiting = await Promise.all(phones.map((phone) => phone.waiting()));
    options.say(
      `Round ${counts.rounds}: ${ends.join(', ')}; ${waiting.join(', ')} waiting; ${verdicts.map((one) => one.lost.length).join(', ')} missing.`,
    );
    // Whoever came to no end has not compared yet.
    const cameToEnd = ends.slice(0, phones.length).every((end) => end === 'idle');
    if (cameToEnd && verdicts.every((one) => one.lost.length === 0) && waiting.every((one) => one === 0)) break;
  }
  for (const phone of phones) for (const why of await phone.reasons()) options.say(`${phone.name} waits: ${why}`);
  const db = await run.server.end();
  verdicts.push(judge('server', await heldByServer(db, run.station, sha256), entries, documents));
  await db.close();
  counts.requests = proxy.met();
  for (const kind of ['lost', 'twice', 'differing'] as const) counts[kind] = verdicts.flatMap((one) => one[kind]);
  counts.failures = phones.flatMap((phone) => phone.failures.map((error) => `${phone.name}: ${String(error)}`));
  return counts;
}

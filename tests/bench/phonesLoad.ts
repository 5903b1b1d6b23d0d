// Many phones of one station at one running server, as plain clients of the wire: entries in turns, then photos, while
// one phone makes an entry now and then and another hears of it over the stream of news. Measures and counts; judges
// nothing.
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { DOCUMENT_HEADER, MAX_PULL_EVENTS, type PullAnswer, type PushAnswer, toMark } from '../../src/wire/sync.ts';
import { heard } from '../server/liveHelp.ts';
import { inTurns, type LoadSize, type MadePhoto, makeLog, toHash } from './phonesMade.ts';
import { type Ask, type Asker, createAsker } from './phonesWire.ts';

/** As many as a station may send at once. */
const PHOTOS_AT_ONCE = 8;
const ENTRY_EVERY_MS = 200;
const PROBE_EVERY_MS = 50;
/** Longer than that nothing stays unseen on a way that works. */
const UNSEEN_MS = 60_000;

export type Load = {
  seconds: { events: number; photos: number };
  /** In ms, one for each batch. */
  push: number[];
  /** From the beginning of the push to the text in the other phone's hands, in ms. */
  seen: { events: number[]; photos: number[] };
  /** The slowest tiny request, and the longest that the measuring process itself stood still, in ms. */
  stall: { server: number; own: number };
  broken: number;
  told: number;
  /** Entries made beside those of the batches. */
  made: number;
  /** What each follower holds in the end: different entries, and how many came a second time. */
  followed: { held: number; twice: number }[];
  photosHeld: number;
};

type Phone = {
  token: string;
  batches: string[][];
  next: number;
  cursor: string;
  held: Set<string> | null;
  twice: number;
};

/** @param tokens Of all phones, and behind them of the one that makes entries and of the one that hears. */
export async function runLoad(
  origin: string,
  tokens: readonly string[],
  size: LoadSize,
  batches: readonly string[][][],
  photos: readonly MadePhoto[],
): Promise<Load> {
  const asker = createAsker(origin);
  const phones = batches.map((mine, i): Phone => {
    const held = i < size.followers ? new Set<string>() : null;
    return { token: tokens[i] ?? '', batches: mine, next: 0, cursor: '0', held, twice: 0 };
  });
  const push: number[] = [];
  const probe = startProbe(asker);
  const pair = await startPair(asker, tokens.at(-2) ?? '', tokens.at(-1) ?? '');
  const events = await timed(() => inTurns(phones, size.atOnce, (phone) => pushOne(asker.ask, phone, push)));
  const seenByEvents = await pair.take();
  const listening = new AbortController();
  await Promise.all(phones.map((phone) => listen(asker, phone.token, listening.signal)));
  const put = async (photo: MadePhoto) => {
    const { token } = phones[photos.indexOf(photo) % phones.length] as Phone;
    const answer = await asker.ask(token, 'PUT', `/documents/${photo.sha}`, photo.bytes, 'image/jpeg');
    if (answer.headers.get(DOCUMENT_HEADER) !== `${photo.sha} ${photo.bytes.length}`)
      throw new Error('The server did not take a photo.');
    return false;
  };
  const uploading = await timed(() => inTurns(photos, PHOTOS_AT_ONCE, put));
  const seenByPhotos = await pair.take();
  listening.abort();
  const made = await pair.stop();
  const stall = await probe.stop();
  // Outside of what is timed: whether everything is there.
  const followers = phones.filter((phone) => phone.held !== null);
  await inTurns(followers, size.atOnce, async (phone) => await pullOn(asker.ask, phone).then(() => false));
  return {
    seconds: { events, photos: uploading },
    push,
    seen: { events: seenByEvents, photos: seenByPhotos },
    stall,
    ...asker.counts,
    made,
    followed: followers.map(({ held, twice }) => ({ held: held?.size ?? 0, twice })),
    photosHeld: await countHeld(asker, phones[0]?.token ?? '', photos),
  };
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const from = performance.now();
  await work();
  return (performance.now() - from) / 1000;
}

/** One batch, then what came since; true when the phone has more to push. */
async function pushOne(ask: Ask, phone: Phone, times: number[]): Promise<boolean> {
  const texts = phone.batches[phone.next] ?? [];
  phone.next += 1;
  const from = performance.now();
  const answer = await ask(phone.token, 'POST', '/events', JSON.stringify({ texts }));
  times.push(performance.now() - from);
  const cursor = lastMark(answer.text, texts);
  if (phone.held) await pullOn(ask, phone);
  else await pullPage(ask, phone.token, cursor);
  return phone.next < phone.batches.length;
}

function lastMark(answer: string, texts: string[]): string {
  const { answers } = JSON.parse(answer) as PushAnswer;
  const last = answers.at(-1);
  // `already` when the connection broke after the server had taken it.
  const taken = answers.every(({ type }) => type === 'stored' || type === 'already');
  if (!taken || !last || !('number' in last) || answers.length !== texts.length)
    throw new Error(`The server did not take a batch: ${answer.slice(0, 300)}`);
  return toMark(last.number, toHash(texts.at(-1) ?? ''));
}

async function pullPage(ask: Ask, token: string, after: string): Promise<PullAnswer> {
  const { text } = await ask(token, 'GET', `/events?after=${after}&limit=${MAX_PULL_EVENTS}`);
  return JSON.parse(text) as PullAnswer;
}

/** Everything that there is behind the phone's cursor. */
async function pullOn(ask: Ask, phone: Phone, heardOf: (id: string) => void = () => undefined): Promise<void> {
  for (let more = true; more; ) {
    const page = await pullPage(ask, phone.token, phone.cursor);
    for (const { text } of page.events) {
      const id = /"id":"([^"]+)"/.exec(text)?.[1] ?? '';
      if (phone.held?.has(id)) phone.twice += 1;
      phone.held?.add(id);
      heardOf(id);
    }
    phone.cursor = page.next;
    more = page.more;
  }
}

/** A stream that is open and read, as every phone has that is online. */
async function listen(asker: Asker, token: string, signal: AbortSignal): Promise<void> {
  const stream = await asker.open(token, signal);
  const reader = stream.body?.getReader();
  const drain = async () => {
    for (let part = await reader?.read(); part && !part.done; ) part = await reader?.read();
  };
  void drain().catch((error: unknown) => {
    if (!signal.aborted) throw error;
  });
}

/** One makes an entry now and then; the other is told over the stream, pulls, and holds it. */
async function startPair(asker: Asker, maker: string, hearer: string) {
  const entry = makeLog('maker');
  const unseen = new Map<string, number>();
  let seen: number[] = [];
  let made = 0;
  let going = true;
  const stream = heard(await asker.open(hearer));
  const phone: Phone = { token: hearer, batches: [], next: 0, cursor: '0', held: null, twice: 0 };
  const saw = (id: string) => {
    const from = unseen.get(id);
    if (from === undefined) return;
    unseen.delete(id);
    seen.push(performance.now() - from);
  };
  const hearing = (async () => {
    for (let news = await stream.next(); news !== null; news = await stream.next()) {
      const at = phone.cursor === '0' ? 0 : Number.parseInt(phone.cursor, 10);
      if (news.type === 'events' && news.top > at) await pullOn(asker.ask, phone, saw);
    }
    if (going) throw new Error('The stream of news ended.');
  })();
  const makeOne = async () => {
    const text = entry();
    made += 1;
    unseen.set((JSON.parse(text) as { id: string }).id, performance.now());
    lastMark((await asker.ask(maker, 'POST', '/events', JSON.stringify({ texts: [text] }))).text, [text]);
  };
  const making = (async () => {
    while (going) {
      await makeOne();
      await pause(ENTRY_EVERY_MS);
    }
  })();
  const failed = Promise.all([hearing, making]);
  failed.catch(() => undefined);
  const allSeen = async () => {
    const until = performance.now() + UNSEEN_MS;
    const before = [...unseen.keys()];
    while (before.some((id) => unseen.has(id))) {
      if (performance.now() > until) throw new Error(`Not seen after ${UNSEEN_MS / 1000} s: ${[...unseen.keys()]}`);
      await pause(5);
    }
  };
  return {
    /** The waits since the last time; those under way are waited for. */
    take: async () => {
      await Promise.race([allSeen(), failed]);
      const taken = seen;
      seen = [];
      return taken;
    },
    /** Answers with how many entries there were. */
    stop: async () => {
      going = false;
      await making;
      await allSeen();
      await stream.leave();
      await failed;
      return made;
    },
  };
}

/** Tiny requests that need no database, begun whether or not the last one is back. */
function startProbe(asker: Asker): { stop: () => Promise<Load['stall']> } {
  const own = monitorEventLoopDelay({ resolution: 10 });
  own.enable();
  let server = 0;
  const under = new Set<Promise<void>>();
  const one = async () => {
    const from = performance.now();
    if (await asker.knock()) server = Math.max(server, performance.now() - from);
  };
  const timer = setInterval(() => {
    const asked = one().finally(() => under.delete(asked));
    under.add(asked);
  }, PROBE_EVERY_MS);
  // A load that failed ends the program, not the probe.
  timer.unref();
  return {
    stop: async () => {
      clearInterval(timer);
      await Promise.all(under);
      own.disable();
      return { server, own: own.max / 1e6 };
    },
  };
}

async function countHeld(asker: Asker, token: string, photos: readonly MadePhoto[]): Promise<number> {
  let held = 0;
  await inTurns(photos, PHOTOS_AT_ONCE, async ({ sha, bytes }) => {
    const { headers } = await asker.ask(token, 'HEAD', `/documents/${sha}`);
    if (headers.get(DOCUMENT_HEADER) === `${sha} ${bytes.length}`) held += 1;
    return false;
  });
  return held;
}

async function pause(ms: number): Promise<void> {
  await new Promise((on) => setTimeout(on, ms));
}

// A phone without a browser: its database is a few maps, its clock moves by hand, its network can be made to fail.
import type { Hono } from 'hono';
import { readEvent } from '../../src/core/record/events.ts';
import type { Env } from '../../src/server/answers.ts';
import type {
  ComparePlace,
  Credentials,
  DocumentBytes,
  DocumentSettlement,
  Held,
  MissedWhy,
  Numbering,
  Outbox,
  Pairing,
  SettledEvent,
  SyncClock,
  SyncState,
  Transport,
  TransportAnswer,
  TransportRequest,
} from '../../src/sync/ports.ts';
import { createSync, type Sync, type SyncParts } from '../../src/sync/sync.ts';
import { type StationName, toMark } from '../../src/wire/sync.ts';
import { sha } from '../server/help.ts';

type Waiting = { tries: number; triedAt: number; dueAt: number; held: Held | null };
const DAY = 86_400_000;

/** What survives when the app is killed and started again. */
export class MemoryPhone implements Outbox, Pairing {
  readonly events = new Map<string, string>();
  readonly waiting = new Map<string, Waiting>();
  readonly settled: SettledEvent[] = [];
  readonly unsettled = new Map<string, SettledEvent>();
  readonly documents = new Map<string, { bytes: Uint8Array<ArrayBuffer>; mime: string }>();
  readonly waitingDocuments = new Map<string, Waiting>();
  readonly settledDocuments: { sha: string; settlement: DocumentSettlement }[] = [];
  readonly refusedDocuments = new Map<string, Held>();
  readonly wanted = new Map<string, { why: MissedWhy | null; tries: number; dueAt: number }>();
  readonly untaken = new Map<string, string>();
  at = '0';
  paired: Credentials | null = null;
  own: StationName | null;
  lastHistory: string | null = null;
  known: Numbering = { history: null, mark: null };
  compareAt: { run: number; index: number; document: number; forAll: boolean } | null = null;
  comparedAt: number | null = null;
  startedOver = 0;
  clockAhead: number | null = null;
  now: () => number = () => 0;
  /** Texts that the reader cannot bear. */
  chokes: (text: string) => boolean = () => false;

  constructor(own: StationName | null) {
    this.own = own;
  }

  record(id: string, text: string): void {
    this.events.set(id, text);
    this.waiting.set(id, fresh());
  }
  addDocument(bytes: Uint8Array<ArrayBuffer>, mime: string): string {
    const name = sha(bytes);
    this.documents.set(name, { bytes, mime });
    this.waitingDocuments.set(name, fresh());
    return name;
  }
  want(name: string): void {
    this.wanted.set(name, { why: null, tries: 0, dueAt: 0 });
  }
  /** What a person does who presses "Send all again". */
  sendAgain(): void {
    for (const id of this.unsettled.keys()) this.waiting.set(id, fresh());
    for (const name of this.refusedDocuments.keys()) this.waitingDocuments.set(name, fresh());
    for (const one of [...this.waiting.values(), ...this.waitingDocuments.values()]) one.dueAt = 0;
    this.unsettled.clear();
    this.refusedDocuments.clear();
  }

  count = async () => ({
    events: this.waiting.size,
    documents: this.waitingDocuments.size,
    refused: this.unsettled.size + this.refusedDocuments.size,
  });
  pendingEvents = async (limit: number) =>
    [...this.waiting]
      .filter(([, one]) => this.due(one))
      .slice(0, limit)
      .map(([id]) => ({ id, text: this.events.get(id) ?? '' }));
  settleEvents = async (settled: SettledEvent[]) => {
    for (const one of settled) {
      const { id, answer } = one;
      this.settled.push(one);
      if (answer.type === 'later') this.putOff(this.waiting.get(id), answer);
      else this.waiting.delete(id);
      if (answer.type === 'refused' || answer.type === 'set-aside') this.unsettled.set(id, one);
      if (answer.type === 'stored' || answer.type === 'already')
        this.keepMark(toMark(answer.number, sha(this.events.get(id) ?? '')));
    }
  };
  pendingDocuments = async (limit: number, photos: boolean) =>
    [...this.waitingDocuments]
      .filter(([, one]) => this.due(one))
      .map(([name]) => {
        const held = this.documents.get(name);
        return { sha: name, mime: held?.mime ?? '', bytes: held?.bytes.byteLength ?? 0 };
      })
      .filter((one) => photos || !one.mime.startsWith('image/'))
      .slice(0, limit);
  documentBytes = async (name: string): Promise<DocumentBytes> => {
    const held = this.documents.get(name);
    if (!held) return { type: 'missing' };
    return sha(held.bytes) === name ? { type: 'bytes', bytes: held.bytes } : { type: 'damaged' };
  };
  settleDocument = async (name: string, settlement: DocumentSettlement) => {
    this.settledDocuments.push({ sha: name, settlement });
    if (settlement.type === 'later') {
      this.putOff(this.waitingDocuments.get(name), settlement);
      return;
    }
    this.waitingDocuments.delete(name);
    if (settlement.type === 'refused') this.refusedDocuments.set(name, settlement);
    else if (settlement.type === 'stored' && settlement.number !== undefined)
      this.keepMark(toMark(settlement.number, name));
  };
  nextDocument = async () => {
    const due = [...this.waitingDocuments.values()].filter((one) => one.dueAt > 0).map((one) => one.dueAt);
    return due.length === 0 ? null : Math.min(...due);
  };
  tend = async () => {
    for (const [key, text] of this.untaken) {
      if (this.chokes(text)) continue;
      this.untaken.delete(key);
      this.takeIn(text);
    }
  };
  numbering = async () => this.known;
  cursor = async () => this.at;
  receive = async (texts: string[], cursor: string) => {
    for (const text of texts) if (this.chokes(text)) this.untaken.set(text, text);
    for (const text of texts) if (!this.chokes(text)) this.takeIn(text);
    this.at = cursor;
  };
  wantedDocuments = async () => [...this.wanted].filter(([, one]) => one.dueAt <= this.now()).map(([name]) => name);
  nextWanted = async () =>
    this.wanted.size === 0 ? null : Math.min(...[...this.wanted.values()].map((one) => one.dueAt));
  storeDocument = async (name: string, bytes: Uint8Array<ArrayBuffer>, mime: string) => {
    if (sha(bytes) !== name) return false;
    this.documents.set(name, { bytes, mime });
    this.wanted.delete(name);
    return true;
  };
  missDocument = async (name: string, why: MissedWhy) => {
    const tries = (this.wanted.get(name)?.tries ?? 0) + 1;
    this.wanted.set(name, { why, tries, dueAt: this.now() + 10_000 * 2 ** Math.min(tries - 1, 13) });
  };
  wantAgain = async () => {
    for (const one of this.wanted.values()) if (one.why === 'not-there') one.dueAt = 0;
  };
  pairedWith = async (history: string, before: string | null) => {
    if (before === history) return;
    if (before !== null) return await this.newHistory(history);
    this.known = { history, mark: null };
    this.comparedAt = null;
  };
  newHistory = async (history: string | null) => {
    this.known = { history, mark: null };
    this.at = '0';
    this.compareAt = { run: (this.compareAt?.run ?? 0) + 1, index: 0, document: 0, forAll: true };
    if (history !== null) this.lastHistory = history;
  };
  learnHistory = async (history: string) => {
    this.known = { ...this.known, history };
    this.lastHistory = history;
  };
  comparing = async () =>
    this.compareAt
      ? { type: 'under-way' as const, forAll: this.compareAt.forAll }
      : { type: 'rests' as const, lastAt: this.comparedAt };
  beginCompare = async () => {
    this.compareAt ??= { run: 1, index: 0, document: 0, forAll: false };
  };
  /** Three at a time, so that a comparison of a few events is broken off in the middle too. */
  compareBatch = async () => {
    const place = this.compareAt;
    if (!place) throw new Error('no comparison is under way');
    const rows = [...this.events].slice(place.index, place.index + 3);
    const index = place.index + rows.length;
    const names = [...this.documents.keys()].sort();
    const documents = index < this.events.size ? [] : names.slice(place.document, place.document + 3);
    const document = place.document + documents.length;
    const done = index >= this.events.size && document >= names.length;
    return {
      events: rows
        .filter(([id]) => !this.waiting.has(id) && !this.unsettled.has(id))
        .map(([id, text]) => ({ id, hash: sha(text) })),
      documents: documents.filter((name) => !this.waitingDocuments.has(name) && !this.refusedDocuments.has(name)),
      next: { run: place.run, arrival: index, aside: '', sha: String(document), done },
    };
  };
  compared = async (missing: { events: string[]; documents: string[] }, next: ComparePlace) => {
    if (this.compareAt?.run !== next.run) return;
    for (const id of missing.events) if (this.events.has(id)) this.waiting.set(id, fresh());
    for (const name of missing.documents) if (this.documents.has(name)) this.waitingDocuments.set(name, fresh());
    this.compareAt = next.done ? null : { ...this.compareAt, index: next.arrival, document: Number(next.sha) };
    if (next.done) this.comparedAt = this.now();
  };
  startOver = async () => {
    this.startedOver += 1;
    this.at = '0';
    this.known = { ...this.known, mark: null };
    this.compareAt = null;
    this.comparedAt = this.now();
    for (const id of this.events.keys()) this.waiting.set(id, fresh());
    for (const name of this.documents.keys()) this.waitingDocuments.set(name, fresh());
  };
  keepClock = async (ahead: number) => {
    this.clockAhead = ahead;
  };

  credentials = async () => this.paired;
  station = async () => this.own;
  history = async () => this.lastHistory;
  keep = async (credentials: Credentials) => {
    this.paired = credentials;
    this.own = credentials.station;
    this.lastHistory = credentials.history;
    if (this.known.history === null && this.known.mark === null) this.known.history = credentials.history;
  };
  dropToken = async () => {
    this.paired = null;
  };

  private due(one: Waiting): boolean {
    return one.dueAt <= this.now() || one.triedAt > this.now();
  }
  private putOff(one: Waiting | undefined, held: Held): void {
    if (!one) return;
    one.tries += 1;
    one.held = held;
    one.triedAt = this.now();
    one.dueAt = this.now() + Math.min(DAY, 10_000 * 2 ** (one.tries - 1));
  }
  private takeIn(text: string): void {
    const read = readEvent(text);
    if (read.type === 'unreadable') throw new Error(read.why);
    const { id } = read.type === 'event' ? read.event : read.envelope;
    if (!this.events.has(id)) this.events.set(id, text);
  }
  private keepMark(mark: string): void {
    const number = (of: string | null) => Number(of?.split('-')[0] ?? 0);
    if (number(mark) > number(this.known.mark)) this.known = { ...this.known, mark };
  }
}

function fresh(): Waiting {
  return { tries: 0, triedAt: 0, dueAt: 0, held: null };
}

export class HandClock implements SyncClock {
  at = 1_800_000_000_000;
  private calls = new Map<object, { at: number; call: () => void }>();

  now = () => this.at;
  after = (ms: number, call: () => void) => {
    const key = {};
    this.calls.set(key, { at: this.at + ms, call });
    return () => void this.calls.delete(key);
  };
  get waits(): number[] {
    return [...this.calls.values()].map((one) => one.at - this.at);
  }
  /** Goes to the next call that is due, whenever that is. */
  skip(): void {
    const [next] = [...this.calls].sort((a, b) => a[1].at - b[1].at);
    if (!next) throw new Error('nothing is waited for');
    this.calls.delete(next[0]);
    this.at = Math.max(this.at, next[1].at);
    next[1].call();
  }
}

/** What the network does with one request: carries it, loses it on the way there or back, or answers itself. */
export type Fate = 'carry' | 'lose-request' | 'lose-answer' | 'twice' | TransportAnswer;

export function madeUp(status: number, text: string, headers: Record<string, string> = {}): TransportAnswer {
  return { type: 'answer', status, text, bytes: null, header: (name) => headers[name] ?? null };
}

export function appTransport(app: Hono<Env>, fate: (request: TransportRequest) => Fate = () => 'carry'): Transport {
  async function carry(request: TransportRequest): Promise<TransportAnswer> {
    const { method, headers, body } = request;
    const answer = await app.request(request.path, { method, headers, ...(body === undefined ? {} : { body }) });
    const asBytes = request.want === 'bytes' && answer.status === 200;
    return {
      type: 'answer',
      status: answer.status,
      header: (name) => answer.headers.get(name),
      text: asBytes ? '' : await answer.text(),
      bytes: asBytes ? new Uint8Array(await answer.arrayBuffer()) : null,
    };
  }
  return {
    cancel: () => undefined,
    send: async (request) => {
      const what = fate(request);
      if (typeof what === 'object') return what;
      if (what === 'lose-request') return { type: 'nothing', why: 'unreachable' };
      if (what === 'twice') await carry(request);
      const answer = await carry(request);
      return what === 'lose-answer' ? { type: 'nothing', why: 'timeout' } : answer;
    },
  };
}

export function startSync(
  phone: MemoryPhone,
  transport: Transport,
  clock = new HandClock(),
  more: Partial<SyncParts> = {},
): Sync & { clock: HandClock; failures: unknown[] } {
  const failures: unknown[] = [];
  phone.now = clock.now;
  const sync = createSync({
    transport,
    outbox: phone,
    pairing: phone,
    clock,
    random: () => 0.5,
    hash: async (bytes) => sha(bytes),
    ...more,
    onFailure: (error) => failures.push(error),
  });
  return { ...sync, clock, failures };
}

/** Resolves at the next state that is not on the way any more. */
export function restOf(sync: Sync): Promise<SyncState> {
  return new Promise((resolve) => {
    const undo = sync.subscribe((state) => {
      if (state.type === 'sending') return;
      undo();
      resolve(state);
    });
  });
}

export async function nudged(sync: Sync): Promise<SyncState> {
  const rest = restOf(sync);
  sync.nudge('person');
  return await rest;
}

// A phone without a browser: its database is a few maps, its clock moves by hand, its network can be made to fail.
import type { Hono } from 'hono';
import { readEvent } from '../../src/core/audit/events.ts';
import type { Env } from '../../src/server/answers.ts';
import type {
  Credentials,
  DocumentSettlement,
  Outbox,
  Pairing,
  SettledEvent,
  SyncClock,
  SyncState,
  Transport,
  TransportAnswer,
  TransportRequest,
} from '../../src/sync/ports.ts';
import { createSync, type Sync } from '../../src/sync/sync.ts';
import type { StationName } from '../../src/wire/sync.ts';
import { sha } from '../server/help.ts';

/** What survives when the app is killed and started again. */
export class MemoryPhone implements Outbox, Pairing {
  readonly events = new Map<string, string>();
  readonly waiting = new Set<string>();
  readonly settled: SettledEvent[] = [];
  readonly unsettled = new Map<string, SettledEvent>();
  readonly documents = new Map<string, { bytes: Uint8Array<ArrayBuffer>; mime: string }>();
  readonly waitingDocuments = new Set<string>();
  readonly settledDocuments: { sha: string; settlement: DocumentSettlement }[] = [];
  readonly wanted = new Set<string>();
  at = '0';
  paired: Credentials | null = null;
  own: StationName | null;
  lastHistory: string | null = null;
  startedOver = 0;

  constructor(own: StationName | null) {
    this.own = own;
  }

  record(id: string, text: string): void {
    this.events.set(id, text);
    this.waiting.add(id);
  }
  addDocument(bytes: Uint8Array<ArrayBuffer>, mime: string): string {
    const name = sha(bytes);
    this.documents.set(name, { bytes, mime });
    this.waitingDocuments.add(name);
    return name;
  }

  count = async () => ({
    events: this.waiting.size,
    documents: this.waitingDocuments.size,
    refused: this.unsettled.size,
  });
  pendingEvents = async (limit: number) =>
    [...this.waiting].slice(0, limit).map((id) => ({ id, text: this.events.get(id) ?? '' }));
  settleEvents = async (settled: SettledEvent[]) => {
    for (const one of settled) {
      this.waiting.delete(one.id);
      this.settled.push(one);
      if (one.answer.type === 'refused' || one.answer.type === 'set-aside') this.unsettled.set(one.id, one);
    }
  };
  pendingDocuments = async (limit: number) =>
    [...this.waitingDocuments].slice(0, limit).map((name) => {
      const held = this.documents.get(name);
      return { sha: name, mime: held?.mime ?? '', bytes: held?.bytes.byteLength ?? 0 };
    });
  documentBytes = async (name: string) => this.documents.get(name)?.bytes ?? null;
  settleDocument = async (name: string, settlement: DocumentSettlement) => {
    this.waitingDocuments.delete(name);
    this.settledDocuments.push({ sha: name, settlement });
  };
  cursor = async () => this.at;
  receive = async (texts: string[], cursor: string) => {
    for (const text of texts) {
      const read = readEvent(text);
      if (read.type === 'unreadable') throw new Error(read.why);
      const { id } = read.type === 'event' ? read.event : read.envelope;
      if (!this.events.has(id)) this.events.set(id, text);
    }
    this.at = cursor;
  };
  wantedDocuments = async () => [...this.wanted];
  storeDocument = async (name: string, bytes: Uint8Array<ArrayBuffer>, mime: string) => {
    if (sha(bytes) !== name) return false;
    this.documents.set(name, { bytes, mime });
    this.wanted.delete(name);
    return true;
  };
  startOver = async () => {
    this.startedOver += 1;
    this.at = '0';
    for (const id of this.events.keys()) this.waiting.add(id);
    for (const name of this.documents.keys()) this.waitingDocuments.add(name);
  };

  credentials = async () => this.paired;
  station = async () => this.own;
  history = async () => this.lastHistory;
  keep = async (credentials: Credentials) => {
    this.paired = credentials;
    this.own = credentials.station;
    this.lastHistory = credentials.history;
  };
  dropToken = async () => {
    this.paired = null;
  };
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
): Sync & { clock: HandClock; failures: unknown[] } {
  const failures: unknown[] = [];
  const sync = createSync({
    transport,
    outbox: phone,
    pairing: phone,
    clock,
    random: () => 0.5,
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

// What the exchange needs from outside: a way to ask the server, a clock, the phone's database. Types only; the
// browser's and the tests' adapters live elsewhere, so that nothing here can depend on either.
import type { EventAnswer, StationName } from '../wire/sync.ts';

export type TransportRequest = {
  method: 'GET' | 'HEAD' | 'PUT' | 'POST' | 'DELETE';
  /** Begins with `/api/`; app and server share one origin. */
  path: string;
  headers: Record<string, string>;
  body?: string | Uint8Array<ArrayBuffer>;
  want: 'text' | 'bytes';
  timeoutMs: number;
};

export type TransportAnswer =
  | {
      type: 'answer';
      status: number;
      /** Names in lower case. */
      header: (name: string) => string | null;
      /** Empty when bytes were wanted and the status is 200; an error is always text. */
      text: string;
      bytes: Uint8Array<ArrayBuffer> | null;
    }
  | { type: 'nothing'; why: 'timeout' | 'unreachable' | 'cancelled' };

/** Never throws: no answer is an answer here. */
export type Transport = {
  send: (request: TransportRequest) => Promise<TransportAnswer>;
  /** Ends whatever is under way with `cancelled`. */
  cancel: () => void;
};

export type SyncClock = {
  now: () => number;
  /** Calls back once after that many milliseconds; the answer undoes it. */
  after: (ms: number, call: () => void) => () => void;
};

export type Credentials = {
  token: string;
  phoneId: string;
  station: StationName;
  /** From the server; when it changes, the numbering the cursor belongs to is gone. */
  history: string;
};

/** Where token and station are kept. Losing the token never touches the record. */
export type Pairing = {
  credentials: () => Promise<Credentials | null>;
  /** The station this phone works in, paired or not; null on an empty phone. */
  station: () => Promise<StationName | null>;
  keep: (credentials: Credentials) => Promise<void>;
  /** The server no longer takes the token. Station and history stay, so that pairing again joins up. */
  dropToken: () => Promise<void>;
  /** History of the last pairing, also after the token was dropped. */
  history: () => Promise<string | null>;
};

export type PendingEvent = { id: string; text: string };
export type SettledEvent = { id: string; answer: EventAnswer };

export type PendingDocument = { sha: string; mime: string; bytes: number };
export type DocumentSettlement =
  | { type: 'stored' }
  /** Stays on the phone and in view. */
  | {
      type: 'refused';
      why: 'too-large' | 'mime-refused' | 'hash-differs' | 'missing' | 'bad-request';
      sentence: string;
    };

/** How much waits, for the screen: sent on every change of state. */
export type OutboxCount = { events: number; documents: number; refused: number };

export type Outbox = {
  count: () => Promise<OutboxCount>;
  /** The oldest events without an answer, in the order of their log; refused and set-aside ones are not among them. */
  pendingEvents: (limit: number) => Promise<PendingEvent[]>;
  /** In one transaction: `stored` and `already` leave the outbox, the others stay in it as refused or set aside. */
  settleEvents: (settled: SettledEvent[]) => Promise<void>;
  pendingDocuments: (limit: number) => Promise<PendingDocument[]>;
  documentBytes: (sha: string) => Promise<Uint8Array<ArrayBuffer> | null>;
  settleDocument: (sha: string, settlement: DocumentSettlement) => Promise<void>;
  /** `0` until something was received. */
  cursor: () => Promise<string>;
  /**
   * Adds the texts that are not here yet and moves the cursor, both in one transaction. Texts made on this phone come
   * back too and are known by their id; an unreadable or newer one is kept as text.
   */
  receive: (texts: string[], cursor: string) => Promise<void>;
  /** Hashes of documents that should be here and are not: the plan in force, and photos somebody opened. */
  wantedDocuments: () => Promise<string[]>;
  /** Checks the hash itself before keeping anything; false means that the bytes are not what the name says. */
  storeDocument: (sha: string, bytes: Uint8Array<ArrayBuffer>, mime: string) => Promise<boolean>;
  /**
   * The server has lost its history, or is another one: cursor back to `0`, and every event and document held here
   * waits again, whoever made it. Sending twice does no harm.
   */
  startOver: () => Promise<void>;
};

export type SendProgress = { phase: 'events' | 'documents' | 'pull' | 'fetch'; done: number; left: number };

export type WaitingWhy =
  | 'no-answer'
  | 'timeout'
  /** Something answered that is not our server: a log-in page, a proxy. */
  | 'not-our-server'
  | 'server-failed'
  | 'server-busy'
  /** The answer was ours but not of the expected form. */
  | 'answer-unreadable'
  /** The phone's own database refused: full, or closing. */
  | 'phone-failed';

export type SyncState =
  | { type: 'unpaired' }
  | { type: 'idle'; lastAt: number | null }
  | { type: 'sending'; progress: SendProgress }
  | { type: 'waiting'; why: WaitingWhy; retryAt: number; tries: number }
  | { type: 'stopped'; why: 'needs-pairing' | 'phone-too-old' | 'server-too-old' };

export type PairResult =
  | { type: 'paired'; station: StationName }
  | { type: 'not-paired'; why: PairFailure; sentence: string };
export type PairFailure =
  | 'not-a-code'
  | 'code-unknown'
  | 'code-used'
  | 'code-expired'
  | 'station-needed'
  | 'station-differs'
  | 'too-many'
  | 'phone-too-old'
  | 'server-too-old'
  | WaitingWhy;

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

/**
 * One that did not get through while others do. It stays on the phone and in view, can be sent again by a person, and
 * is tried again by itself: `refused` once a day, `later` after a growing time of its own.
 */
export type Held = { type: 'refused' | 'later'; why: HeldWhy; sentence: string };
type HeldWhy =
  /** Something between phone and server does not let it pass. */
  | 'way'
  | 'too-large'
  | 'mime-refused'
  | 'too-long'
  | 'unreadable'
  /** Damaged or gone on this phone. */
  | 'damaged-here'
  | 'missing'
  | 'damaged-on-the-way'
  | 'broken-off'
  | 'server-failed';

export type PendingEvent = { id: string; text: string };
export type SettledEvent = { id: string; answer: EventAnswer | Held };

export type PendingDocument = { sha: string; mime: string; bytes: number };
/** @param number Of the server's row of numbers, where it told one. */
export type DocumentSettlement = { type: 'stored'; number?: number } | Held;
export type DocumentBytes =
  | { type: 'bytes'; bytes: Uint8Array<ArrayBuffer> }
  | { type: 'missing' }
  | { type: 'damaged' };

/** How much waits, for the screen: sent on every change of state. */
type OutboxCount = { events: number; documents: number; refused: number };

/** The server's numbering as this phone knows it: sent along with each pull. */
export type Numbering = {
  /** Null: not known, so that nothing is claimed. */
  history: string | null;
  /** The highest mark ever acknowledged in that history. */
  mark: string | null;
};

/** Ids, with hashes, of what is held here, and where to go on after them. */
type CompareBatch = {
  events: { id: string; hash: string }[];
  documents: string[];
  /** To be given back with the answer; opaque here. */
  next: ComparePlace;
};
export type ComparePlace = { run: number; arrival: number; aside: string; sha: string; done: boolean };

export type Outbox = {
  count: () => Promise<OutboxCount>;
  /** The oldest events without an answer, in the order of their log; refused and set-aside ones are not among them. */
  pendingEvents: (limit: number) => Promise<PendingEvent[]>;
  /** In one transaction: `stored` and `already` leave the outbox, the others stay in it as refused or set aside. */
  settleEvents: (settled: SettledEvent[]) => Promise<void>;
  /** Those that are due, oldest first. @param photos False: photos stay where they are. */
  pendingDocuments: (limit: number, photos: boolean) => Promise<PendingDocument[]>;
  /** Checked against the name. */
  documentBytes: (sha: string) => Promise<DocumentBytes>;
  settleDocument: (sha: string, settlement: DocumentSettlement) => Promise<void>;
  /** When the next document that was put off is due; null when there is none. */
  nextDocument: () => Promise<number | null>;
  /** Puts what is due again back into the queue, and tries again to take in what could not be read. */
  tend: () => Promise<void>;
  numbering: () => Promise<Numbering>;
  /** `0` until something was received. */
  cursor: () => Promise<string>;
  /**
   * Adds the texts that are not here yet and moves the cursor, both in one transaction. Texts made on this phone come
   * back too and are known by their id; an unreadable or newer one is kept as text. A text that cannot be taken in is
   * put aside, named and tried again by `tend`; it holds up no other.
   */
  receive: (texts: string[], cursor: string) => Promise<void>;
  /** Hashes of documents that should be here, are not, and are due: the plan in force, and photos somebody opened. */
  wantedDocuments: () => Promise<string[]>;
  /** When the next one that was put off is due; null when there is none. */
  nextWanted: () => Promise<number | null>;
  /** Checks the hash itself before keeping anything; false means that the bytes are not what the name says. */
  storeDocument: (sha: string, bytes: Uint8Array<ArrayBuffer>, mime: string) => Promise<boolean>;
  /** Asked for in vain: due again after a growing time of its own. */
  missDocument: (sha: string, why: MissedWhy) => Promise<void>;
  /** There is news from others: what was not at the server may be there now. */
  wantAgain: () => Promise<void>;

  /** A pairing in that history: everything is to be compared when the one before was another. */
  pairedWith: (history: string, before: string | null) => Promise<void>;
  /**
   * The server has another history than this phone knows: receiving begins anew, and what is held here is compared
   * with what the server holds. @param history Null when the server has not said which.
   */
  newHistory: (history: string | null) => Promise<void>;
  /** The server says which history it has, and the phone did not know. */
  learnHistory: (history: string) => Promise<void>;
  /** `forAll`: the server has another history, and one that cannot compare is given everything. */
  comparing: () => Promise<{ type: 'under-way'; forAll: boolean } | { type: 'rests'; lastAt: number | null }>;
  /** From the beginning, unless one is under way. */
  beginCompare: () => Promise<void>;
  /** The next of what is held here and does not wait already. */
  compareBatch: (limit: number) => Promise<CompareBatch>;
  /**
   * Queues what the server does not hold and what does not wait already, and goes on behind it; ends the comparison
   * when that was the last. Nothing happens when another comparison was begun meanwhile.
   */
  compared: (missing: { events: string[]; documents: string[] }, next: ComparePlace) => Promise<void>;
  /** For a server that cannot compare: every event and document held here waits again. Sending twice does no harm. */
  startOver: () => Promise<void>;
  /** Milliseconds by which this phone's clock is ahead of the server's. */
  keepClock: (ahead: number) => Promise<void>;
};

/** `not-there`: another phone has named it and not sent it yet. `differs`: the bytes are not what the name says. */
export type MissedWhy = 'not-there' | 'differs' | 'failed';

export type SendProgress = {
  phase: 'events' | 'documents' | 'pull' | 'fetch' | 'compare';
  done: number;
  left: number;
};

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

/** Entries out and in, documents out, documents in: each goes its own way and waits for none of the others. */
export type LaneName = 'entries' | 'up' | 'down';
export type LaneState =
  | { type: 'idle'; lastAt: number | null }
  /** `progress` is null as long as there was nothing to do. */
  | { type: 'busy'; progress: SendProgress | null }
  | { type: 'waiting'; why: WaitingWhy; retryAt: number; tries: number };

export type SyncDetails = {
  lanes: Record<LaneName, LaneState>;
  /** News of other phones comes at once; null where the phone does not listen at all. */
  live: boolean | null;
  /** Milliseconds by which this phone's clock is ahead of the server's; null before it was measured. */
  clockAhead: number | null;
  /** Photos wait because a person said that they go over a good network only. */
  photosHeld: boolean;
};

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

// What screens may ask for. main.tsx joins it to the store, the workers, the scanner and the sync; tests join fakes.
// A screen never reaches past this file.

import type { ReadonlySignal, Signal } from '@preact/signals';
import type { AuditId, EventId, PlaceId } from '../core/plan/identity.ts';
import type { Plan } from '../core/plan/model.ts';
import type { EventKind, Payload } from '../core/record/events.ts';
import type { Agreement } from '../core/report/plan/guessKinds.ts';
import type { GroupAnswer, QuestionsOf } from '../core/report/plan/questionGroups.ts';
import type { RememberedShape } from '../core/schedule/answers/remembered.ts';
import type { Table } from '../core/schedule/rows/readTypes.ts';
import type { SheetAnswers } from '../core/schedule/sheetAnswers.ts';
import type { Circle } from '../scan/aim.ts';
import type { CameraScanner } from '../scan/camera.ts';
import type { CameraChoice } from '../scan/cameraStream.ts';
import type { Wedge } from '../scan/wedge.ts';
import type { LogTrouble } from '../store/record/asideView.ts';
import type { PairResult, SyncDetails, SyncState } from '../sync/ports.ts';
import type { Question, Questions } from '../wire/page.ts';
import type { Kept, Spoiled } from '../wire/planSheets.ts';
import type { RowFacts, RowLine, SheetAnswer, SheetTaken } from '../wire/sheet.ts';
import type { Presence, PresenceSaid } from '../wire/sync.ts';
import type { KeptServices } from './drafts/draftServices.ts';
import type { FeelSettings } from './feel/settings.ts';

export interface Unsent {
  statements: number;
  photos: number;
  notes: number;
  other: number;
  bytes: number;
  /** Items that were not taken; they stay on the phone and in view. */
  refused: number;
}

/** One that did not get through while others do. */
export interface HeldItem {
  /** Of the outbox. */
  key: string;
  what: 'statement' | 'photo' | 'note' | 'other';
  /** When it was made. */
  at: number;
  refused: boolean;
  why: string;
  sentence: string | null;
  /** When it is tried again by itself. */
  dueAt: number | null;
}

/** What is to be said of the exchange besides its state. */
export interface Sending {
  details: SyncDetails;
  /** When the oldest of what waits was made. */
  since: { entries: number | null; documents: number | null };
  held: HeldItem[];
  /** Came and could not be taken in. */
  untaken: { hash: string; why: string; dueAt: number }[];
  /** Asked for and not got. */
  missed: { document: string; why: 'not-there' | 'differs' | 'failed'; dueAt: number | null }[];
  /** Named as documents by entries, and no names of documents. */
  misnamed: string[];
  /** A person wants photos to go over a good network only. */
  photosWait: boolean;
  /** As the browser tells it. */
  network: 'good' | 'poor' | 'unknown';
}

export type Recorded = { type: 'saved'; event: EventId } | { type: 'not-saved'; event: EventId; why: string };
/** What became of a picture or a voice note; `nearlyFull` when the browser will soon take no more of them. */
export type MediaAdded =
  | { type: 'saved'; document: string; event: EventId; nearlyFull: boolean }
  | { type: 'not-saved'; why: MediaFailure; what: string };
export type MediaFailure = 'heic' | 'not-a-picture' | 'no-memory' | 'no-room' | 'full' | 'store-lost' | 'too-large';

/** How a schedule was read, before anybody adopts it. */
export type SheetReading = Extract<SheetAnswer, { type: 'read' }> & { session: SheetSession };
export type SheetRead =
  | SheetReading
  /** No list was recognised: what is in the file, so that a person can say what it means. */
  | ({ type: 'unmapped'; what: string; where: string | null; nextStep: string; session: SheetSession } & SheetTaken)
  | { type: 'refused'; what: string; where: string | null; nextStep: string };

/** The file behind a reading, until it is closed. */
export interface SheetSession {
  /** @param agreed What was agreed to at an earlier time, in place of what is now. */
  again(answers: SheetAnswers, agreed?: string): Promise<SheetRead>;
  /** Null when the reader has ended. */
  agree(said: Agreement): Promise<Extract<SheetAnswer, { type: 'agreed' }> | null>;
  /** One answer for a whole group of questions. */
  settle(of: QuestionsOf, how: GroupAnswer): Promise<SheetRead>;
  /** One row as the file has it; null when the reader has ended. */
  row(sheet: string, row: number): Promise<RowFacts | null>;
  /** Some rows of the sheet, from this one on; none when the reader has ended. */
  rows(sheet: string, from: number, n: number): Promise<RowLine[]>;
  /** The next row below this one, or else from the top, of which something is open. */
  next(sheet: string, row: number): Promise<number | null>;
  /** The plan as its document, with the files it names; null when the reader has ended. */
  document(name?: string): Promise<Extract<SheetAnswer, { type: 'document' }> | null>;
  close(): void;
}

/** `rows` of `of`; `of` is 0 while the file is being opened and nobody knows how many there are. */
export interface SheetProgress {
  share: number;
  rows: number;
  of: number;
}

/** Rows of any list, before anybody says what they mean. */
export type TablesRead = { type: 'tables'; tables: Table[] } | Extract<SheetRead, { type: 'refused' }>;

/** The plan as files, or why there are none. */
export type PlanFiles =
  | {
      type: 'files';
      files: File[];
      form: 'own' | 'source';
      kept: Kept;
      spoiled: Spoiled;
      amended: number;
      /** The first of what its columns cannot say, and how many there are. */
      left: { n: number; first: string[] };
      /** The sheet it was read from is not on this phone; it is asked for at the next exchange. */
      sourceMissing: boolean;
      /** Another phone brought the sheet in: what was settled there is not known here. */
      settledElsewhere: boolean;
    }
  | { type: 'cancelled' }
  | { type: 'failed'; why: string };

export type BundleTaken =
  /** `known`: entries of the file that were here already. */
  | { type: 'taken'; events: number; documents: number; known: number; damaged: string[] }
  | { type: 'refused'; what: string; nextStep: string };

export interface PairedPhone {
  id: string;
  name: string;
  pairedAt: number;
  seenAt: number | null;
  me: boolean;
  /** Whether this phone may remove it. */
  mayRemove: boolean;
}

export interface PhoneSettings {
  author: string;
  theme: 'auto' | 'day' | 'night' | 'sunlight' | 'black';
  hand: 'right' | 'left';
  camera: CameraChoice | null;
  /** How a walk feels; read with feelOf in feel/settings.ts, which knows the defaults. */
  feel: Partial<FeelSettings> | null;
}

export interface Services extends KeptServices {
  /** Name of the station in this phone's directory; empty until somebody names it. */
  stationName: ReadonlySignal<string>;
  /** Rises whenever the record changed: by this page, another tab or the server. Screens ask again then. */
  changed: ReadonlySignal<number>;
  ask<Q extends Question>(question: Q, given: Questions[Q]['ask']): Promise<Questions[Q]['answer']>;
  /** Last home view written to disk, so that the first screen does not wait for the fold. */
  homeAtOnce(): Promise<Questions['home']['answer'] | null>;

  record<K extends EventKind>(kind: K, payload: Payload<K>, about?: { audit?: AuditId }): Promise<Recorded>;
  /** `whole`: a unit with all its jacks, kept larger so that its labels can be read later. */
  addPhoto(picture: Blob, about: { place?: PlaceId; audit?: AuditId; whole?: boolean }): Promise<MediaAdded>;
  /** @param lasts Milliseconds. */
  addVoice(sound: Blob, lasts: number, about: { place?: PlaceId; audit?: AuditId }): Promise<MediaAdded>;
  /**
   * An object URL of a photo or its thumbnail, or of a voice note (`full`); null when it is not on this phone. What was
   * opened in full is asked for at the next exchange then. The caller revokes the URL.
   */
  photoUrl(document: string, size: 'thumb' | 'full'): Promise<string | null>;
  /** The bytes themselves, for a file that carries them along; null as above. */
  documentBytes(document: string): Promise<{ bytes: Uint8Array<ArrayBuffer>; mime: string } | null>;
  /** Id of this phone's log in the station; null before anything was recorded. */
  log(): Promise<string | null>;
  newId(): string;
  now(): number;

  settings: Signal<PhoneSettings>;
  unsent: ReadonlySignal<Unsent>;
  /** Statements that are not on disk. The NOT SAVED bar shows when, and only when, this is above 0. */
  /** `copied`: a second place holds all of it, and the next start takes it back. */
  notSaved: ReadonlySignal<{ count: number; why: string | null; copied: boolean }>;
  retrySaving(): Promise<void>;
  /** Everything not on disk as a file, for the worst case. */
  exportUnsaved(): Promise<void>;
  storage: ReadonlySignal<{ persisted: boolean | null; usedBytes: number | null; quotaBytes: number | null }>;
  askPersistence(): Promise<boolean | null>;

  /** A scanner whose picture fills `place`; the caller stops it before `place` leaves the page. */
  camera(place: HTMLElement, circle?: () => Circle): Promise<CameraScanner>;
  wedge(): Promise<Wedge>;

  readSheet(
    files: { name: string; bytes: ArrayBuffer }[],
    shapes: RememberedShape[],
    onProgress: (progress: SheetProgress) => void,
    signal: AbortSignal,
  ): Promise<SheetRead>;
  readTables(files: { name: string; bytes: ArrayBuffer }[], signal: AbortSignal): Promise<TablesRead>;
  /** Stores the plan as a document and records that it is in force. */
  adoptPlan(plan: Plan): Promise<Recorded>;
  /** The same for a sheet that was read: the plan goes from the reader to the disk as bytes. */
  adoptSheet(session: SheetSession, name?: string): Promise<Recorded>;
  /** The plan in force as sheets: one workbook, or one CSV for each list. */
  planFiles(as: 'xlsx' | 'csv', onProgress: (share: number) => void, signal: AbortSignal): Promise<PlanFiles>;
  /** Brings the demo station in: plan and name. */
  openDemo(): Promise<Recorded>;

  sync: {
    state: ReadonlySignal<SyncState>;
    /** Null until the exchange has begun. */
    sending: ReadonlySignal<Sending | null>;
    now(): void;
    /** @param key Of one held item; null for all of them. */
    sendAgain(key: string | null): Promise<void>;
    setPhotosWait(wait: boolean): Promise<void>;
    /** Those that wait for a good network go over this one. */
    sendPhotosNow(): void;
    pair(code: string, phone: string): Promise<PairResult>;
    unpair(): Promise<void>;
    newCode(): Promise<{ type: 'code'; code: string; validUntil: number } | { type: 'failed'; why: string }>;
    phones(): Promise<PairedPhone[] | null>;
    revoke(phone: string): Promise<{ type: 'removed' } | { type: 'failed'; why: string }>;
  };

  /** Other people of the station who are online and in a walk, and where this phone's person is. */
  presence: {
    others: ReadonlySignal<Presence[]>;
    /** Null when the person is nowhere any more. */
    say(at: Omit<PresenceSaid, 'name'> | null): void;
  };

  /** The whole station as one file, made first and handed over on a second tap (sharing needs a fresh tap). */
  prepareBundle(): Promise<{ file: File; canShare: boolean }>;
  handOver(file: File): Promise<'shared' | 'saved' | 'cancelled'>;
  takeBundle(file: File): Promise<BundleTaken>;
  /** Logs of which something is kept aside or contradicts what is here. */
  logTroubles(): Promise<LogTrouble[]>;
  /** Present time by the server's clock where it is known, else by this phone's. */
  presentTime(): Promise<number>;

  update: {
    ready: ReadonlySignal<boolean>;
    offlineReady: ReadonlySignal<boolean>;
    apply(): Promise<void>;
    version: string;
  };
  installed(): boolean;
  platform(): 'ios' | 'android' | 'other';
}

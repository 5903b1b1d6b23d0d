// The rows of every table, as both databases give them. Types only; the steps that make them stand in migrations.ts.
import type { ColumnType } from 'kysely';

/** Read as both drivers give it: a buffer over memory of its own, never over shared memory. */
type Bytes = ColumnType<Uint8Array<ArrayBuffer>, Uint8Array, Uint8Array>;

export type Tables = {
  stations: { id: string; name: string; next_number: number; history: string; made_at: number };
  phones: {
    id: string;
    station: string;
    name: string;
    token_hash: string;
    paired_at: number;
    seen_at: number | null;
    revoked_at: number | null;
    /** 1: may remove every other phone of the station. */
    keeper: number;
    /** The phone whose code let it in; null for a code of the terminal. */
    invited_by: string | null;
  };
  codes: { hash: string; station: string | null; expires_at: number; used_at: number | null; made_by: string | null };
  events: {
    station: string;
    id: string;
    number: number;
    hash: string;
    log: string;
    seq: number;
    text: string;
    received_at: number;
  };
  set_aside: { station: string; id: string; hash: string; text: string; why: string; received_at: number };
  documents: {
    station: string;
    sha: string;
    bytes: number;
    mime: string;
    complete: number;
    /** Of the same row as the events' numbers; null for those of before. */
    number: number | null;
    received_at: number | null;
  };
  chunks: { station: string; sha: string; n: number; bytes: Bytes };
  /** Of documents that are still on their way. */
  parts: {
    station: string;
    sha: string;
    n: number;
    bytes: Uint8Array;
    received_at: number;
    /** That sent it; null for those of before. */
    phone: string | null;
  };
  /** What was found not to be what its hash says, until it is whole again. `id`: event id or document hash. */
  damaged: { station: string; kind: 'event' | 'document'; id: string; found_at: number };
  /** Numbers that events had until they were mended; cursors and proofs of before still name them. */
  renumbered: { station: string; number: number; hash: string };
  /** Where people are; `said` is JSON of the wire's form. */
  presence: { station: string; phone: string; said: string; at: number };
  /** Buckets that all processes share. */
  rates: { key: string; level: number; at: number };
  /** Facts of this server by name: last scrub, last backup, the probe of health. JSON. */
  facts: { key: string; value: string; at: number };
};

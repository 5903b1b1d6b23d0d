// What every route is given, and the limits of one server.

import * as wire from '../wire/sync.ts';
import type { Database } from './database/database.ts';
import type { HoldLimits } from './holds.ts';
import type { Live, LiveLimits } from './live/live.ts';
import type { Random } from './phones/pairing.ts';
import type { PlaceLimits } from './places.ts';
import type { TrustedProxies } from './proxies.ts';
import type { Bucket } from './rate.ts';
import type { PartCaps } from './stores/partStore.ts';

export type Limits = {
  jsonBytes: number;
  documentBytes: number;
  /** Bodies of documents and parts of them that arrive at once. */
  uploads: PlaceLimits;
  /** Chunks of 1 MiB that all bodies together hold in memory, beside the first of each; the rest waits in the database. */
  heldChunks: number;
  /** Requests under way until their answers are with the phone, and bytes of JSON that they hold. */
  holds: HoldLimits;
  /** Parts that wait for their documents, each of 1 MiB at most. */
  waitingParts: PartCaps;
  pairPerAddress: Bucket;
  pairInAll: Bucket;
  /** This one and the next are held in memory: with several processes a phone has one of each in each of them. */
  perPhone: Bucket;
  presence: Bucket;
} & LiveLimits;

export const LIMITS: Limits = {
  jsonBytes: wire.MAX_JSON_BYTES,
  documentBytes: wire.MAX_DOCUMENT_BYTES,
  uploads: { inAll: 24, perStation: 8, perPhone: 2 },
  heldChunks: 64,
  holds: { requestsPerPhone: 64, bytesPerPhone: 16 * 1024 * 1024, bytesInAll: 128 * 1024 * 1024 },
  waitingParts: { perStation: 512, perPhone: 128 },
  pairPerAddress: { capacity: 10, perSecond: 1 / 6 },
  pairInAll: { capacity: 60, perSecond: 1 },
  perPhone: { capacity: 600, perSecond: 60 },
  presence: { capacity: 30, perSecond: 1 },
  streamsPerPhone: 2,
  streamsInAll: 2000,
};

/** What every route is given. */
export type Serving = {
  db: Database;
  clock: { now: () => number };
  random: Random;
  limits: Limits;
  live: Live;
  /** Proxies whose word about the asker's address counts; none unless named. */
  trustedProxies?: TrustedProxies;
};

// What the lane of entries and its comparison are given. Types only.
import type { Asked } from './ask.ts';
import type { CarryParts } from './carry.ts';

export type Told = { now?: number | undefined; history?: string | undefined };

export type EntriesParts = CarryParts & {
  /** What an answer tells beside itself. True: the server has another history, and receiving begins anew. */
  heard: (told: Told, asked: Extract<Asked, { type: 'ok' }>) => Promise<boolean>;
  received: (events: number) => void;
  documentsQueued: () => void;
};

// What the phones of the measurement bring, the same from the same seed: batches of entries as long as a walk makes
// them, and photos that begin and end as JPEG does and cannot be squeezed in between.
import { createCipheriv, createHash } from 'node:crypto';
import { createRandom } from './benchFacility.ts';

export type LoadSize = {
  phones: number;
  eventsEach: number;
  photos: number;
  /** So many of the phones pull all that the others push. */
  followers: number;
  /** Questions for events under way at once. */
  atOnce: number;
};

export const STATION = { id: 'st-phones', name: 'Bench Radio' };
const BATCH = { least: 20, most: 50 };
const PHOTO_BYTES = { least: 200_000, most: 400_000 };

/** For each phone its batches, in the order in which they are pushed. */
export function makeBatches({ phones, eventsEach }: LoadSize): string[][][] {
  const random = createRandom(1);
  return Array.from({ length: phones }, (_, phone) => {
    const entry = makeLog(String(phone));
    const batches: string[][] = [];
    for (let left = eventsEach; left > 0; ) {
      const count = Math.min(left, Math.floor(BATCH.least + random() * (BATCH.most - BATCH.least + 1)));
      batches.push(Array.from({ length: count }, entry));
      left -= count;
    }
    return batches;
  });
}

/** Answers with the next entry of one phone's log each time. */
export function makeLog(name: string): () => string {
  let seq = 0;
  let prev: string | null = null;
  return () => {
    seq += 1;
    const place = `jack:room-${seq % 7}|rack-${seq % 90}|sw-${seq % 400}|p${seq % 48}`;
    const plugs = [{ labels: [{ text: String(1000 + seq) }] }];
    const payload = { places: [place], said: [`SW${seq % 400}`], state: 'label', plugs, basis: 'seen', by: 'camera' };
    const head = { v: 1, id: `e-${name}-${seq}`, station: STATION.id, audit: 'a-1', log: `log-${name}`, seq, prev };
    const at = 1_800_000_000_000 + seq * 1000;
    const text = JSON.stringify({ ...head, author: 'Ines', at, zone: 60, kind: 'sighting', payload });
    prev = toHash(text);
    return text;
  };
}

export type MadePhoto = { sha: string; bytes: Uint8Array<ArrayBuffer> };

export function makePhotos(count: number): MadePhoto[] {
  const random = createRandom(2);
  return Array.from({ length: count }, (_, n) => {
    const size = Math.floor(PHOTO_BYTES.least + random() * (PHOTO_BYTES.most - PHOTO_BYTES.least + 1));
    // The stream of a cipher under a fixed key is as good as chance and comes at the speed of memory.
    const start = Buffer.alloc(16);
    start.writeUInt32BE(n);
    const bytes = new Uint8Array(createCipheriv('aes-128-ctr', Buffer.alloc(16, 7), start).update(Buffer.alloc(size)));
    bytes.set([0xff, 0xd8, 0xff, 0xe0]);
    bytes.set([0xff, 0xd9], size - 2);
    return { sha: toHash(bytes), bytes };
  });
}

export function toHash(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}

/** Everyone's steps in turns, so many at once; whoever answers true has more to do and stands at the end again. */
export async function inTurns<T>(all: readonly T[], atOnce: number, step: (one: T) => Promise<boolean>): Promise<void> {
  const queue = [...all];
  const work = async () => {
    for (let one = queue.shift(); one !== undefined; one = queue.shift()) if (await step(one)) queue.push(one);
  };
  await Promise.all(Array.from({ length: atOnce }, work));
}

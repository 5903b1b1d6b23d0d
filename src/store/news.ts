// Tells the fold of this page what others wrote, and the other tabs that there is something to read. The channel only
// says "look": what is new is read from the database, so a lost message costs nothing but time.
import type { StationStore } from './database.ts';

export type News = {
  onElsewhere: (call: (texts: string[]) => void) => () => void;
  catchUp: () => Promise<void>;
  wroteOwn: (first: number, last: number) => void;
  wroteOthers: () => Promise<void>;
  restored: (texts: string[]) => void;
  close: () => void;
};

const CHUNK = 4000;

export function createNews(store: StationStore): News {
  const calls = new Set<(texts: string[]) => void>();
  const channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel(`asfound-${store.station}`);
  if (channel) channel.onmessage = () => void catchUp();
  let turn: Promise<void> = Promise.resolve();

  const tell = (texts: string[]): void => {
    for (const call of calls) call(texts);
  };

  function catchUp(): Promise<void> {
    turn = turn.then(readOn, readOn);
    return turn;
  }

  /** May hand out an event of this page a second time, which changes nothing in a fold. */
  async function readOn(): Promise<void> {
    if (calls.size === 0) return;
    for (;;) {
      const read = await store.run((db) => db.events.where('arrival').above(store.seen.arrival).limit(CHUNK).toArray());
      const last = read.type === 'done' ? read.value.at(-1) : undefined;
      if (read.type !== 'done' || !last) return;
      store.seen.arrival = Math.max(store.seen.arrival, last.arrival);
      tell(read.value.map((row) => row.text));
    }
  }

  return {
    onElsewhere: (call) => {
      calls.add(call);
      return () => calls.delete(call);
    },
    catchUp,
    wroteOwn: (first, last) => {
      if (first === store.seen.arrival + 1) store.seen.arrival = last;
      channel?.postMessage('events');
    },
    wroteOthers: () => {
      channel?.postMessage('events');
      return catchUp();
    },
    restored: tell,
    close: () => channel?.close(),
  };
}

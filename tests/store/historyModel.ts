// Phones with the real store on disks of their own and a server in memory, driven by steps made at random. The server
// keeps the first text of an id, loses answers when told, and can be put back to an earlier state.
import { Dexie } from 'dexie';
import { IDBFactory } from 'fake-indexeddb';
import { readEvent } from '../../src/core/record/events.ts';
import { createStation } from '../../src/core/rules/station.ts';
import { type Commands, createCommands } from '../../src/store/commands.ts';
import { openStation, type StationStore } from '../../src/store/database.ts';
import { textToHash } from '../../src/store/hash.ts';
import { createPageLocks } from '../../src/store/locks.ts';
import { textsAside } from '../../src/store/record/asideView.ts';
import { StationDb } from '../../src/store/schema.ts';
import { dequeue, enqueue, kindToWhat, outboxKey } from '../../src/store/sending/outbox.ts';
import { look } from './helpers.ts';

export type Step =
  | { type: 'record'; phone: number; what: 'note' | 'sighting' | 'name' | 'withdraw'; pick: number; times: number }
  | { type: 'push'; phone: number; some: number; lose: boolean }
  | { type: 'pull'; phone: number; some: number; lose: boolean }
  | { type: 'bundle'; phone: number; to: number; every: number; turned: boolean }
  | { type: 'reopen'; phone: number }
  | { type: 'restore'; keep: number }
  /** In the log of `phone`, given to `to` by a file. */
  | { type: 'forge'; phone: number; to: number; how: 'far' | 'fork' | 'gap' | 'wrong-prev' | 'on-top'; pick: number };

const STATION = 'any-history';
const PLACES = ['SW1/P01', 'SW1/P02', 'SW1/P03'];

interface Phone {
  name: string;
  disk: IDBFactory;
  made: { ids: number };
  store: StationStore;
  commands: Commands;
  /** Where it reads on, and in which history. */
  at: { history: number; number: number };
}

async function open(name: string, disk: IDBFactory, made: { ids: number }): Promise<Pick<Phone, 'store' | 'commands'>> {
  const opened = await openStation({
    station: STATION,
    create: (id, versions) => {
      Dexie.dependencies.indexedDB = disk;
      return new StationDb(id, versions);
    },
  });
  if (opened.type !== 'done') throw new Error(opened.type);
  const commands = createCommands({
    store: opened.value,
    author: () => name,
    // Clocks that are wrong by a year from phone to phone.
    now: () => 1_700_000_000_000 + Number(name.slice(1)) * 31_536_000_000 + made.ids,
    zone: () => 0,
    newId: () => `${name}-${++made.ids}`,
    lock: createPageLocks(),
    after: () => () => undefined,
  });
  return { store: opened.value, commands };
}

export async function createWorld(count: number) {
  const phones: Phone[] = [];
  for (let n = 0; n < count; n++) {
    const [name, disk, made] = [`p${n}`, new IDBFactory(), { ids: 0 }];
    phones.push({ name, disk, made, ...(await open(name, disk, made)), at: { history: 0, number: 0 } });
  }
  const server = { history: 0, rows: [] as { id: string; text: string }[] };
  const forged: string[] = [];
  const saved = new Set<string>();
  const phone = (n: number): Phone => phones[n % phones.length]!;
  const textsOf = (one: Phone) =>
    look(one.store, async (db) => (await db.events.orderBy('arrival').toArray()).map(({ text }) => text));

  async function record(one: Phone, what: string, pick: number): Promise<void> {
    const texts = await textsOf(one);
    const place = PLACES[pick % PLACES.length]!;
    const made = await (() => {
      switch (what) {
        case 'sighting':
          return one.commands.record(
            'sighting',
            { places: [place], said: [place], state: pick % 2 ? 'empty' : 'unlabelled', plugs: [], basis: 'seen' },
            { audit: 'a' },
          );
        case 'name': {
          const after = foldOf(texts).standing.name.heads.map(({ id }) => id);
          return one.commands.record('station-named', { name: `Name ${pick}`, after });
        }
        case 'withdraw': {
          const target = texts.length === 0 ? 'none' : JSON.parse(texts[pick % texts.length]!).id;
          return one.commands.record('withdrawn', { target: { event: target }, why: 'undo' }, { audit: 'a' });
        }
        default:
          return one.commands.record('note', { text: `${pick}` }, { audit: 'a' });
      }
    })();
    if (made.type !== 'saved') throw new Error(`refused its own entry: ${made.type}`);
    saved.add(made.text);
  }

  async function queueAll(one: Phone): Promise<void> {
    await look(one.store, (db) =>
      db.transaction('rw', [db.events, db.outbox, db.meta], async () => {
        const rows = await db.events.toArray();
        const queued = rows.map(({ id, at, text, arrival }) => {
          const row = { id, kind: 'event' as const, what: kindToWhat('note'), at, bytes: text.length, order: arrival };
          return row;
        });
        await enqueue(db, queued);
      }),
    );
  }

  async function push(one: Phone, some: number, lose: boolean): Promise<number> {
    const texts = await look(one.store, async (db) => {
      const rows = await db.outbox.orderBy('[kind+state+order]').limit(some).toArray();
      return (await db.events.bulkGet(rows.map(({ order }) => order))).flatMap((row) => (row ? [row] : []));
    });
    for (const { id, text } of texts) if (!server.rows.some((row) => row.id === id)) server.rows.push({ id, text });
    if (lose) return texts.length;
    await look(one.store, (db) =>
      db.transaction('rw', [db.outbox, db.meta], () =>
        dequeue(
          db,
          texts.map(({ id }) => outboxKey('event', id)),
        ),
      ),
    );
    return texts.length;
  }

  async function pull(one: Phone, some: number, lose: boolean): Promise<number> {
    if (one.at.history !== server.history) {
      // The server begins anew: all that is here is offered to it again, and all that is there is read again.
      one.at = { history: server.history, number: 0 };
      await queueAll(one);
    }
    const page = server.rows.slice(one.at.number, one.at.number + some);
    if (lose || page.length === 0) return page.length;
    const next = one.at.number + page.length;
    const took = await one.commands.receive(
      page.map(({ text }) => text),
      'pulled',
      `${next}-0123456789abcdef`,
    );
    if (took.type !== 'done') throw new Error(took.type);
    one.at.number = next;
    return page.length;
  }

  async function bring(texts: readonly string[], to: Phone): Promise<void> {
    const took = await to.commands.receive(texts, 'bundle');
    if (took.type !== 'done') throw new Error(took.type);
  }

  async function forge(step: Extract<Step, { type: 'forge' }>): Promise<void> {
    const victim = phone(step.phone);
    const texts = (await textsOf(victim)).filter((text) => JSON.parse(text).author === victim.name);
    const log = texts.length > 0 ? JSON.parse(texts[0]!).log : `log-of-${victim.name}`;
    const at = texts.length === 0 ? -1 : step.pick % texts.length;
    const below = step.how === 'on-top' ? forged.at(-1) : texts[at];
    const link = below === undefined ? null : JSON.parse(below);
    const hash = below === undefined ? null : await textToHash(below);
    const seq =
      { far: Number.MAX_SAFE_INTEGER - 40, gap: (link?.seq ?? 0) + 3 }[step.how as 'far'] ?? (link?.seq ?? -1) + 1;
    const text = JSON.stringify({
      ...{ v: 1, id: `f-${forged.length}`, station: STATION, audit: 'a', log: link?.log ?? log, seq },
      ...{ prev: step.how === 'wrong-prev' ? 'f'.repeat(64) : hash, author: 'forger', at: 1, zone: 0 },
      ...{ kind: 'note', payload: { text: 'forged' } },
    });
    forged.push(text);
    await bring([text], phone(step.to));
  }

  async function run(step: Step): Promise<void> {
    switch (step.type) {
      case 'record':
        for (let n = 0; n < step.times; n++) await record(phone(step.phone), step.what, step.pick + n);
        return;
      case 'push':
        return void (await push(phone(step.phone), step.some, step.lose));
      case 'pull':
        return void (await pull(phone(step.phone), step.some, step.lose));
      case 'bundle': {
        const from = phone(step.phone);
        const all = [...(await textsOf(from)), ...(await look(from.store, textsAside))];
        const some = all.filter((_, i) => i % step.every === 0);
        return bring(step.turned ? some.reverse() : some, phone(step.to));
      }
      case 'reopen': {
        const one = phone(step.phone);
        one.commands.close();
        one.store.close();
        return void Object.assign(one, await open(one.name, one.disk, one.made));
      }
      case 'restore': {
        server.rows.length = Math.min(server.rows.length, step.keep);
        server.history++;
        return;
      }
      case 'forge':
        return forge(step);
    }
  }

  return {
    phones,
    server,
    saved,
    run,
    textsOf,
    /** Until nobody has anything to send and nobody anything to receive. */
    async settle(): Promise<void> {
      for (let round = 0; round < 50; round++) {
        let moved = 0;
        for (const one of phones) {
          for (let n = await pull(one, 7, false); n > 0; n = await pull(one, 7, false)) moved += n;
          for (let n = await push(one, 7, false); n > 0; n = await push(one, 7, false)) moved += n;
        }
        if (moved === 0) return;
      }
      throw new Error('it never ends');
    },
    /** Every text that exists anywhere, taken or not. */
    async everything(): Promise<string[]> {
      const all = new Set(server.rows.map(({ text }) => text));
      for (const one of phones) {
        for (const text of await textsOf(one)) all.add(text);
        for (const text of await look(one.store, textsAside)) all.add(text);
      }
      return [...all];
    },
    close(): void {
      for (const one of phones) {
        one.commands.close();
        one.store.close();
      }
    },
  };
}

/** The rule itself, on a whole set of texts: what of it is taken. */
export async function closureOf(texts: readonly string[]): Promise<string[]> {
  const all = await Promise.all(
    texts.map(async (text) => {
      const read = readEvent(text);
      if (read.type !== 'event') throw new Error(`the model makes events alone: ${text}`);
      return { text, hash: await textToHash(text), ...read.event };
    }),
  );
  const taken = new Map<string, (typeof all)[number]>();
  for (let before = -1; before !== taken.size; ) {
    before = taken.size;
    for (const one of all) {
      const below = one.prev === null ? undefined : taken.get(one.prev);
      const isFirst = one.seq === 0 && one.prev === null;
      if (isFirst || (below && below.log === one.log && below.seq === one.seq - 1)) taken.set(one.hash, one);
    }
  }
  return [...taken.values()].map(({ text }) => text).sort();
}

export function foldOf(texts: readonly string[]) {
  const station = createStation();
  const start = {
    ...{
      v: 1,
      id: 'start',
      station: STATION,
      audit: 'a',
      log: 'start',
      seq: 0,
      prev: null,
      author: 'x',
      at: 0,
      zone: 0,
    },
    kind: 'audit-started',
    payload: {
      ...{ name: 'a', occasion: 'inherit', scope: { racks: [], rooms: [] }, exclusions: [] },
      ...{ permission: 'look', people: [], plan: null, blind: false },
    },
  };
  station.addTexts([JSON.stringify(start), ...texts]);
  const fold = station.audit('a')?.fold;
  return {
    standing: station.standing(),
    name: station.name(),
    places: PLACES.map((place) => fold?.stateAt(place)),
    found: fold?.discrepancies(),
    notes: fold?.of('note').map(({ id }) => id),
  };
}

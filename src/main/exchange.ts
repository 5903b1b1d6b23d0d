// Joins the exchange with the server to this phone's database. Loaded after the first screen stands.
import type { ReadonlySignal, Signal } from '@preact/signals';
import type { Commands } from '../store/commands.ts';
import { openStation, type StationStore } from '../store/database.ts';
import type { Directory } from '../store/directory.ts';
import { bytesToHash } from '../store/hash.ts';
import { createOutbox, createPairing } from '../store/sending/syncPorts.ts';
import { createFetchTransport } from '../sync/fetchTransport.ts';
import { createLive } from '../sync/live.ts';
import type { Credentials, SyncState } from '../sync/ports.ts';
import { createSync, type SyncParts } from '../sync/sync.ts';
import type { PhoneSettings, Sending, Services } from '../ui/services.ts';
import type { Presence } from '../wire/sync.ts';
import { type Company, createCompany } from './company.ts';
import { openLiveStream } from './liveStream.ts';
import { createNetwork } from './network.ts';
import type { RecordClient } from './recordClient.ts';
import { watchSending } from './sending.ts';
import { serverCalls } from './serverCalls.ts';
import { after, now } from './station.ts';

const random = () => crypto.getRandomValues(new Uint32Array(1))[0]! / 2 ** 32;

interface ExchangeParts {
  store: StationStore;
  commands: Commands;
  directory: Directory;
  stationName: ReadonlySignal<string>;
  settings: ReadonlySignal<PhoneSettings>;
  /** Written here, shown by the screens. */
  state: Signal<SyncState>;
  sending: Signal<Sending | null>;
  others: Signal<Presence[]>;
  record: Pick<RecordClient, 'documentArrived'>;
}

type Exchange = Omit<Services['sync'], 'sending'> & {
  nudge: (why: 'record' | 'online' | 'start') => void;
  company: Company;
};

export function createExchange(parts: ExchangeParts): Exchange {
  const { store, commands, state } = parts;
  const outbox = createOutbox(store, commands, now);
  const pairing = joinable(parts);
  const token = async () => (await pairing.credentials())?.token ?? null;
  const live = listening((present) => company.heard(present));
  const sync = createSync({
    transport: createFetchTransport({
      fetch: (url, init) => fetch(url, init),
      makeAbort: () => {
        const controller = new AbortController();
        return { signal: controller.signal, abort: () => controller.abort() };
      },
      after,
    }),
    outbox: {
      ...outbox,
      storeDocument: async (sha, bytes, mime) => {
        const kept = await outbox.storeDocument(sha, bytes, mime);
        if (kept) void parts.record.documentArrived();
        return kept;
      },
    },
    clock: { now, after },
    pairing,
    hash: bytesToHash,
    random,
    visible,
    mayCarryPhotos: () => network.mayCarryPhotos(),
    listen: live.listen,
    onFailure: (error) => console.error(error),
  });
  const back = () => {
    sync.nudge('online');
    live.retry();
  };
  const network = createNetwork({ changed: back });
  watchSending({ store, outbox, sync, network, state, sending: parts.sending });
  addEventListener('online', back);
  document.addEventListener('visibilitychange', () => {
    if (visible()) back();
  });
  sync.nudge('start');
  const company = joinCompany(parts, token);
  document.addEventListener('visibilitychange', company.seen);

  return {
    state,
    company,
    nudge: sync.nudge,
    now: () => sync.nudge('person'),
    async sendAgain(key) {
      await outbox.sendAgain(key);
      sync.nudge('person');
    },
    async setPhotosWait(wait) {
      await outbox.setPhotosWait(wait);
      network.setPhotosWait(wait);
      sync.nudge('person');
    },
    sendPhotosNow() {
      network.photosNow(true);
      sync.nudge('person');
    },
    ...paired(parts, { ...pairing, token }, sync.pair, () => sync.nudge('person')),
  };
}

const visible = () => document.visibilityState === 'visible';

/** Asked for its station, an empty phone has none. */
type StationPairing = Omit<ReturnType<typeof createPairing>, 'station'> & Pick<SyncParts['pairing'], 'station'>;

/** The pairing of this phone's station; an empty phone joins the station that the code belongs to. */
function joinable({ store, directory, stationName }: ExchangeParts): StationPairing {
  const own = createPairing(store, () => stationName.value);
  const isEmpty = async () => {
    const count = await store.run((db) => db.events.count());
    return count.type === 'done' && count.value === 0;
  };
  return {
    ...own,
    /** An empty phone brings no station, so that it can join the one the code belongs to. */
    station: async () => ((await isEmpty()) && (await own.history()) === null ? null : own.station()),
    keep: async (credentials: Credentials) => {
      const { id, name } = credentials.station;
      if (id === store.station) {
        await own.keep(credentials);
        await directory.openedStation({ id, name, openedAt: now() });
        return;
      }
      // The code belongs to another station and this phone is empty: go on in a database of that station.
      const joined = await openStation({ station: id });
      if (joined.type !== 'done') throw new Error(joined.type);
      await createPairing(joined.value, () => name).keep(credentials);
      await directory.openedStation({ id, name, openedAt: now() });
      joined.value.close();
      setTimeout(() => location.assign('/'), 0);
    },
  };
}

/** The stream of news, opened anew for each token. */
function listening(heard: (present: Presence[]) => void): {
  listen: NonNullable<SyncParts['listen']>;
  retry: () => void;
} {
  let live: ReturnType<typeof createLive> | null = null;
  return {
    listen(token, told) {
      const made = createLive({
        open: openLiveStream,
        clock: { now, after },
        random,
        onMessage: (message) => {
          if (message.type === 'events') told.news();
          else if (message.type === 'present') heard(message.present);
        },
        onState: (is) => told.up(is === 'live'),
      });
      live = made;
      made.start(token);
      return made.stop;
    },
    retry: () => live?.retry(),
  };
}

function joinCompany({ settings, others }: ExchangeParts, token: () => Promise<string | null>): Company {
  return createCompany({
    put: async (at) => {
      const held = await token();
      const answer = held === null ? null : await serverCalls.presence(held, at);
      if (answer?.type === 'ok') return answer.value?.present ?? null;
      return answer?.status === 404 ? 'unknown' : null;
    },
    clock: { now, after },
    name: () => settings.peek().author,
    others,
    visible,
  });
}

type Paired = Pick<Services['sync'], 'pair' | 'unpair' | 'newCode' | 'phones' | 'revoke'>;

/** Pairing and the list of paired phones, as a person asks for them. */
function paired(
  { store, directory, stationName }: ExchangeParts,
  { credentials, station, token }: StationPairing & { token: () => Promise<string | null> },
  pair: Paired['pair'],
  nudge: () => void,
): Paired {
  return {
    async pair(code, phone) {
      if ((await station()) === null && stationName.value !== '')
        await directory.openedStation({ id: store.station, name: stationName.value, openedAt: now() });
      return pair(code, phone);
    },
    async unpair() {
      const held = await credentials();
      if (held) await serverCalls.revoke(held.token, held.phoneId);
      await store.run((db) => db.meta.bulkDelete(['token', 'pairing', 'comparedAt']));
      nudge();
    },
    async newCode() {
      const held = await token();
      if (!held) return { type: 'failed', why: 'This phone is not paired.' };
      const made = await serverCalls.newCode(held);
      if (made.type === 'failed') return made;
      return { type: 'code', code: made.value!.code, validUntil: made.value!.expiresAt };
    },
    async phones() {
      const held = await token();
      const listed = held ? await serverCalls.phones(held) : null;
      if (listed?.type !== 'ok' || !listed.value) return null;
      return listed.value.phones
        .filter((phone) => phone.revokedAt === null)
        .map(({ id, name, pairedAt, seenAt, self: me, mayRemove = true }) => {
          return { id, name, pairedAt, seenAt, me, mayRemove };
        });
    },
    async revoke(phone) {
      const held = await token();
      if (!held) return { type: 'failed', why: 'This phone is not paired.' };
      const answer = await serverCalls.revoke(held, phone);
      return answer.type === 'ok' ? { type: 'removed' } : { type: 'failed', why: answer.why };
    },
  };
}

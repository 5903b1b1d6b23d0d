// How soon one phone sees what another recorded: two phones with the exchange of the app and a server of its own, over
// real sockets.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createFetchTransport } from '../../src/sync/fetchTransport.ts';
import { createLive } from '../../src/sync/live.ts';
import { createSync, type Sync, type SyncParts } from '../../src/sync/sync.ts';
import { codeToPayload, WIRE_HEADER } from '../../src/wire/sync.ts';
import { MemoryPhone } from '../sync/memoryPhone.ts';
import { eventText, STATION, sha } from './help.ts';
import { bundleServer, runServer, type ServerProcess, startServer } from './process.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

let data: string;
let server: ServerProcess;
let file: string;
const syncs: Sync[] = [];
beforeEach(async () => {
  data = mkdtempSync(join(tmpdir(), 'asfound-seen-'));
  file = await bundleServer('seen');
  server = await startServer(file, { PORT: '0', ASFOUND_DATA: data });
});
afterEach(async () => {
  for (const sync of syncs.splice(0)) sync.stop();
  if (server.child.exitCode === null) await server.kill('SIGKILL');
  rmSync(data, { recursive: true });
});

const clock = {
  now: () => Date.now(),
  after: (ms: number, call: () => void) => {
    const timer = setTimeout(call, ms);
    return () => clearTimeout(timer);
  },
};
const makeAbort = () => {
  const controller = new AbortController();
  return { signal: controller.signal, abort: () => controller.abort() };
};

function listenAt(origin: string): NonNullable<SyncParts['listen']> {
  return (token, told) => {
    const live = createLive({
      open: (given) => {
        const { signal, abort } = makeAbort();
        const headers = { authorization: `Bearer ${given}`, [WIRE_HEADER]: '1' };
        const answer = fetch(`${origin}/api/live`, { headers, signal }).then(
          (response) => {
            const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
            return {
              status: response.status,
              header: (name: string) => response.headers.get(name),
              read: async () => (await reader?.read().catch(() => null))?.value ?? null,
            };
          },
          () => null,
        );
        return { answer, abort };
      },
      clock,
      random: Math.random,
      onMessage: (message) => message.type === 'events' && told.news(),
      onState: (state) => told.up(state === 'live'),
    });
    live.start(token);
    return live.stop;
  };
}

async function phoneWith(code: string, more: Partial<SyncParts> = {}) {
  const phone = new MemoryPhone(STATION);
  phone.now = clock.now;
  const origin = `http://127.0.0.1:${server.port}`;
  const transport = createFetchTransport({ fetch, makeAbort, after: clock.after, origin });
  const parts = {
    transport,
    outbox: phone,
    pairing: phone,
    clock,
    random: Math.random,
    hash: async (b: Uint8Array) => sha(b),
  };
  const sync = createSync({ ...parts, visible: () => true, ...more });
  syncs.push(sync);
  expect((await sync.pair(codeToPayload(code), 'Phone')).type).toBe('paired');
  return { phone, sync, origin };
}

/** Resolves when news of others comes by itself. */
async function hears(sync: Sync): Promise<void> {
  if (sync.details().live) return;
  await new Promise<void>((resolve) => {
    sync.subscribe((_, details) => {
      if (details.live) resolve();
    });
  });
}

async function arrives(phone: MemoryPhone, id: string): Promise<void> {
  const receive = phone.receive;
  await new Promise<void>((resolve) => {
    phone.receive = async (...given) => {
      await receive(...given);
      if (phone.events.has(id)) resolve();
    };
  });
  phone.receive = receive;
}

test('two phones that are online see each other’s entries within two seconds, nineteen times in twenty', async () => {
  const listen = listenAt(`http://127.0.0.1:${server.port}`);
  const a = await phoneWith(server.code, { listen });
  const second = await runServer(file, ['--pair', STATION.id], { ASFOUND_DATA: data });
  const code = /\b([2-9A-HJKMNP-TV-Z]{5}[- ]?[2-9A-HJKMNP-TV-Z]{5})\b/.exec(second.output)?.[1] ?? '';
  const b = await phoneWith(code, { listen });
  await Promise.all([hears(a.sync), hears(b.sync)]);
  const took: number[] = [];
  for (let i = 0; i < 40; i += 1) {
    const [from, to] = i % 2 === 0 ? [a, b] : [b, a];
    const id = `e${i}`;
    const began = performance.now();
    const seen = arrives(to.phone, id);
    from.phone.record(id, eventText(id));
    from.sync.nudge('record');
    await seen;
    took.push(performance.now() - began);
  }
  took.sort((x, y) => x - y);
  expect(took[Math.ceil(took.length * 0.95) - 1]).toBeLessThan(2000);
});

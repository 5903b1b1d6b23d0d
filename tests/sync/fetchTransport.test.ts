// The transport over real sockets, against servers that hang, break off or send something else.
import { createServer, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, expect, test, vi } from 'vitest';
import { createFetchTransport } from '../../src/sync/fetchTransport.ts';
import type { Transport, TransportRequest } from '../../src/sync/ports.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const open: Server[] = [];
afterEach(async () => {
  for (const server of open.splice(0)) {
    server.closeAllConnections();
    await new Promise((done) => server.close(done));
  }
});

async function against(answer: (response: ServerResponse) => void) {
  const server = createServer((_request, response) => answer(response));
  open.push(server);
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const timers = new Set<() => void>();
  const transport: Transport = createFetchTransport({
    fetch,
    makeAbort: () => {
      const controller = new AbortController();
      return { signal: controller.signal, abort: () => controller.abort() };
    },
    after: (_ms, call) => {
      timers.add(call);
      return () => void timers.delete(call);
    },
    origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
  });
  return { transport, timers };
}

const GET: TransportRequest = { method: 'GET', path: '/x', headers: {}, want: 'text', timeoutMs: 1000 };

test('a server that says nothing is a timeout when the time is up', async () => {
  const { transport, timers } = await against(() => {
    for (const call of timers) call();
  });
  expect(await transport.send(GET)).toEqual({ type: 'nothing', why: 'timeout' });
  expect(timers.size).toBe(0);
});

test('a body that never ends runs into the same timeout', async () => {
  const { transport, timers } = await against((response) => {
    response.write('half', () => {
      for (const call of timers) call();
    });
  });
  expect(await transport.send(GET)).toEqual({ type: 'nothing', why: 'timeout' });
});

test('a connection that breaks off is unreachable, a cancelled one is cancelled', async () => {
  const broken = await against((response) => response.destroy());
  expect(await broken.transport.send(GET)).toEqual({ type: 'nothing', why: 'unreachable' });
  const held = await against(() => held.transport.cancel());
  expect(await held.transport.send(GET)).toEqual({ type: 'nothing', why: 'cancelled' });
});

test('bytes come as bytes, errors as text whatever was wanted', async () => {
  let status = 200;
  const { transport } = await against((response) => {
    response.writeHead(status, { 'X-Name': 'value' }).end(Buffer.from([0, 255, 65]));
  });
  const bytes = await transport.send({ ...GET, want: 'bytes' });
  expect(bytes).toMatchObject({ type: 'answer', status: 200, text: '', bytes: new Uint8Array([0, 255, 65]) });
  expect(bytes.type === 'answer' && bytes.header('x-name')).toBe('value');
  status = 404;
  expect(await transport.send({ ...GET, want: 'bytes' })).toMatchObject({ status: 404, bytes: null });
});

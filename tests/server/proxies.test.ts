// Which address a request is held to, with and without proxies in front. Addresses are those set aside for examples
// (RFC 5737, RFC 3849).
import type { AddressInfo } from 'node:net';
import { serve } from '@hono/node-server';
import { expect, test } from 'vitest';
import { createApp } from '../../src/server/app.ts';
import { openDatabase } from '../../src/server/database/database.ts';
import { clientAddress, readProxies, toBucketKey } from '../../src/server/proxies.ts';
import { WIRE_HEADER } from '../../src/wire/sync.ts';
import { countingRandom, movableClock } from './help.ts';

const trusted = readProxies('192.0.2.1, 198.51.100.0/24 2001:db8:1::/48');

test.each([
  ['192.0.2.1', '203.0.113.7', '203.0.113.7'],
  ['192.0.2.1', '203.0.113.9, 203.0.113.7', '203.0.113.7'],
  ['192.0.2.1', '203.0.113.7, 198.51.100.20', '203.0.113.7'],
  ['::ffff:192.0.2.1', '203.0.113.7', '203.0.113.7'],
  ['192.0.2.1', '203.0.113.7:4711', '203.0.113.7'],
  ['2001:db8:1::5', '[2001:db8:2::7]:4711', '2001:db8:2::7'],
  ['2001:db8:1::5', '2001:db8:2::7, 198.51.100.3', '2001:db8:2::7'],
])('behind trusted %s with “%s” it is %s', (socket, forwarded, address) => {
  expect(clientAddress(socket, forwarded, trusted)).toBe(address);
});

test.each([
  ['203.0.113.5', '192.0.2.99'],
  ['203.0.113.5', '192.0.2.1'],
  ['unknown', '203.0.113.7'],
])('from %s, which is not trusted, “%s” counts for nothing', (socket, forwarded) => {
  expect(clientAddress(socket, forwarded, trusted)).toBe(socket);
});

test.each([undefined, '', 'not an address', '203.0.113.7, <script>', '203.0.113.7,'])(
  'a trusted proxy that says “%s” is itself the last thing known',
  (forwarded) => {
    expect(clientAddress('192.0.2.1', forwarded, trusted)).toBe('192.0.2.1');
  },
);

test('nobody is trusted unless named', () => {
  expect(clientAddress('192.0.2.1', '203.0.113.7')).toBe('192.0.2.1');
  expect(clientAddress('192.0.2.1', '203.0.113.7', readProxies(''))).toBe('192.0.2.1');
});

test.each(['10.0.0.0/33', 'fd00::/129', 'proxy.example', '10.0.0.1/8/8', '10.0.0.1/', '10.0.0.1/-1', '/8'])(
  'a list that names %s is refused by name',
  (said) => {
    expect(() => readProxies(`192.0.2.1, ${said}`)).toThrow(said);
  },
);

test('addresses of one IPv6 network of 64 bits share a bucket, others do not', () => {
  expect(toBucketKey('203.0.113.7')).toBe('203.0.113.7');
  expect(toBucketKey('2001:db8::1')).toBe(toBucketKey('2001:0db8:0:0:ffff:1:2:3'));
  expect(toBucketKey('2001:db8:0:1::1')).not.toBe(toBucketKey('2001:db8::1'));
  expect(toBucketKey('fe80::1%eth0')).toBe('fe80:0:0:0::/64');
  expect(toBucketKey('::1')).toBe('0:0:0:0::/64');
});

test('two phones behind one trusted proxy have a pairing limit each, over real sockets', async () => {
  const db = await openDatabase({ type: 'sqlite', file: ':memory:' });
  const parts = { db, clock: movableClock(), random: countingRandom(), version: '0.0.0' };
  const app = createApp({ ...parts, trustedProxies: readProxies('127.0.0.0/8, ::1') });
  const server = serve({ fetch: app.fetch, port: 0, hostname: '127.0.0.1' });
  await new Promise<void>((open) => server.on('listening', () => open()));
  const { port } = server.address() as AddressInfo;
  const tried = async (forwarded: string) => {
    const answer = await fetch(`http://127.0.0.1:${port}/api/pair`, {
      method: 'POST',
      headers: { [WIRE_HEADER]: '1', 'x-forwarded-for': forwarded },
      body: JSON.stringify({ code: '2222222222', phone: 'A', station: null }),
    });
    await answer.text();
    return answer.status;
  };
  try {
    for (let turn = 0; turn < 10; turn += 1) expect(await tried('203.0.113.7')).toBe(403);
    // What the asker writes further left does not help him.
    expect(await tried('203.0.113.250, 203.0.113.7')).toBe(429);
    expect(await tried('203.0.113.8')).toBe(403);
  } finally {
    server.close();
    await db.close();
  }
});

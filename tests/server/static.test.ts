// The built app as files: which headers, which fallback, and no way out of the folder.
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { urlToPath } from '../../src/server/static.ts';
import { type TestServer, testServer } from './help.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const folder = mkdtempSync(join(tmpdir(), 'asfound-static-'));
const root = join(folder, 'dist');
let db: Database;
let server: TestServer;

beforeAll(async () => {
  mkdirSync(join(root, 'assets'), { recursive: true });
  writeFileSync(join(root, 'index.html'), '<!doctype html><title>Asfound</title>');
  writeFileSync(join(root, 'sw.js'), 'self;');
  writeFileSync(join(root, 'assets', 'walk-Ab12_-9z.js'), 'export const walk = 1;'.repeat(100));
  writeFileSync(join(root, 'assets', 'reader-12345678.wasm'), new Uint8Array([0, 0x61, 0x73, 0x6d]));
  writeFileSync(join(root, '.hidden'), 'secret');
  writeFileSync(join(folder, 'outside.txt'), 'secret');
  symlinkSync(join(folder, 'outside.txt'), join(root, 'link.txt'));
  db = await openDatabase({ type: 'sqlite', file: ':memory:' });
  server = testServer(db, { staticRoot: root });
});
afterAll(async () => {
  await db.close();
  rmSync(folder, { recursive: true });
});

const get = async (path: string, headers: Record<string, string> = {}) => await server.app.request(path, { headers });

test('the page and the service worker are asked for every time, hashed files never again', async () => {
  for (const path of ['/', '/index.html', '/sw.js']) {
    const answer = await get(path);
    expect(answer.headers.get('cache-control')).toBe('no-cache');
    const tag = answer.headers.get('etag') ?? '';
    expect((await get(path, { 'if-none-match': tag })).status).toBe(304);
  }
  const hashed = await get('/assets/walk-Ab12_-9z.js');
  expect(hashed.headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
  expect(hashed.headers.get('content-type')).toContain('text/javascript');
  expect((await get('/assets/reader-12345678.wasm')).headers.get('content-type')).toBe('application/wasm');
});

test('the policy is on the page and lets in nothing written into it', async () => {
  const { headers } = await get('/');
  const policy = headers.get('content-security-policy') ?? '';
  expect(policy).toContain("default-src 'self'");
  expect(policy).toContain("frame-ancestors 'none'");
  // Voice notes are played from memory, and from nowhere else.
  expect(policy).toContain("media-src 'self' blob:;");
  expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|trusted-types|\*/);
  expect(headers.get('permissions-policy')).toContain('camera=(self), microphone=(self)');
  expect(headers.get('referrer-policy')).toBe('no-referrer');
});

test('text goes out squeezed to those who take it', async () => {
  const plain = await (await get('/assets/walk-Ab12_-9z.js')).text();
  const squeezed = await get('/assets/walk-Ab12_-9z.js', { 'accept-encoding': 'br, gzip' });
  expect(squeezed.headers.get('content-encoding')).toBe('gzip');
  const bytes = new Uint8Array(await squeezed.arrayBuffer());
  expect(Number(squeezed.headers.get('content-length'))).toBe(bytes.byteLength);
  expect(bytes.byteLength).toBeLessThan(plain.length / 5);
  expect(gunzipSync(bytes).toString()).toBe(plain);
});

test('a place inside the app is the page; a missing file and an unknown API route are not', async () => {
  const page = await get('/walk/rack-2');
  expect(page.headers.get('content-type')).toContain('text/html');
  expect(page.headers.get('cache-control')).toBe('no-cache');
  expect((await get('/assets/gone-12345678.js')).status).toBe(404);
  for (const path of ['/api', '/api/', '/api/unknown']) {
    const answer = await get(path);
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(answer.headers.get('content-type')).toContain('application/json');
  }
});

test('nothing outside the folder and no hidden file is ever answered', async () => {
  const tries = [
    '/..%2foutside.txt',
    '/%2e%2e/outside.txt',
    '/assets/..%2f..%2foutside.txt',
    '/..%5coutside.txt',
    '/link.txt',
    '/.hidden',
    '/index.html%00.js',
    '/%',
    '//outside.txt',
    '/assets',
  ];
  for (const path of tries) expect(await (await get(path)).text(), path).not.toContain('secret');
  for (const path of ['/..%2fa', '/a%00', '/a%5cb', '/.env', '/%']) {
    expect(urlToPath(`http://localhost${path}`), path).toBeNull();
  }
  expect(urlToPath('http://localhost/walk/a%20b?x=..')).toBe('/walk/a b');
});

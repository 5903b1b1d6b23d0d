// What the terminal shows: the picture of the code must be one that a scanner really reads.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, expect, test, vi } from 'vitest';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import { readAsked } from '../../src/server/phones/pairCommand.ts';
import { codeText, reachText } from '../../src/server/welcome.ts';
import { CODE_LIFE_MS, textToCode } from '../../src/wire/sync.ts';
import { STATION } from './help.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

beforeAll(() => {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm'));
  prepareZXingModule({ overrides: { wasmBinary: new Uint8Array(wasm).buffer } });
});

/** Light ink on a dark terminal, each character two modules high. */
function paint(lines: string[]): ImageData {
  const zoom = 6;
  const width = Math.max(...lines.map((line) => line.length)) * zoom;
  const height = lines.length * 2 * zoom;
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const row = Math.floor(y / zoom);
      const char = lines[row >> 1]?.[Math.floor(x / zoom)] ?? ' ';
      const light = char === '█' || char === (row % 2 === 0 ? '▀' : '▄');
      data.fill(light ? 255 : 0, (y * width + x) * 4, (y * width + x) * 4 + 3);
    }
  }
  return { data, width, height, colorSpace: 'srgb' } as ImageData;
}

test('the picture on the terminal is read by a scanner as the code beside it', async () => {
  const text = codeText({ code: '23456ABCDE', expiresAt: CODE_LIFE_MS, station: STATION });
  expect(text).toContain('23456 ABCDE');
  expect(text).toContain(STATION.name);
  const lines = text.split('\n').filter((line) => /[█▀▄]/.test(line));
  const [read] = await readBarcodes(paint(lines), { formats: ['QRCode'] });
  expect(read?.text).toBe('ASFOUND-PAIR:23456ABCDE');
  expect(textToCode(read?.text ?? '')).toBe('23456ABCDE');
});

test('without a certificate it says what a phone needs; with one, how long it lasts', () => {
  const now = Date.UTC(2026, 2, 1);
  const plain = reachText({ port: 8080, addresses: ['192.0.2.7'], certificate: null }, now);
  expect(plain).toContain('http://localhost:8080');
  expect(plain).toContain('192.0.2.7');
  expect(plain).toContain('ASFOUND_TLS_CERT');
  const secure = (until: number) =>
    reachText(
      { port: 8443, addresses: [], certificate: { names: ['audit.example.org'], until: new Date(until) } },
      now,
    );
  expect(secure(now + 47 * 86_400_000)).toContain('https://audit.example.org:8443');
  expect(secure(now + 47 * 86_400_000)).toContain('ends in 47 days');
  expect(secure(now - 1)).toContain('EXPIRED');
});

test('what is asked for after --pair is the only station, a new one, or one by name', () => {
  expect(readAsked([])).toEqual({ type: 'any' });
  expect(readAsked(['--new'])).toEqual({ type: 'new' });
  expect(readAsked(['Quayside', 'Community', 'Radio'])).toEqual({ type: 'named', name: 'Quayside Community Radio' });
});

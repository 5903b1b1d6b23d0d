// What the build weighs and what the service worker will keep, read from the built files. The budgets are the design's;
// tests/browser/offline.test.ts measures the same start from a real browser's requests.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, test } from 'vitest';

const DIST = join(import.meta.dirname, '..', 'dist');
/** Bytes of script, after gzip, without which the home screen cannot stand. */
const HOME_BUDGET = 60_000;
/** Bytes that an install fetches, after gzip where the server shrinks; a slow link at 1 Mbit/s takes 16 s for it. */
const INSTALL_BUDGET = 2_000_000;

interface Chunk {
  file: string;
  isEntry?: boolean;
  imports?: string[];
  dynamicImports?: string[];
}

let chunks: Record<string, Chunk>;
let precached: string[];

const read = (path: string) => readFileSync(join(DIST, path));
const shrunk = (path: string) => gzipSync(read(path), { level: 9 }).length;

beforeAll(() => {
  if (!existsSync(join(DIST, '.vite', 'manifest.json')))
    throw new Error('There is no build in dist/: run npm run build, or npm test, which builds first.');
  chunks = JSON.parse(read('.vite/manifest.json').toString()) as Record<string, Chunk>;
  const list = read('sw.js')
    .toString()
    .matchAll(/["']?url["']?:\s*["'`]([^"'`]+)["'`]/g);
  precached = [...list].map((match) => match[1]);
});

function startFiles(): string[] {
  const entry = Object.keys(chunks).find((name) => chunks[name].isEntry);
  const reached = new Set<string>();
  const follow = (name: string) => {
    if (reached.has(name)) return;
    reached.add(name);
    for (const next of chunks[name].imports ?? []) follow(next);
  };
  if (entry) follow(entry);
  return [...reached].map((name) => chunks[name].file).filter((file) => file.endsWith('.js'));
}

function filesUnder(folder: string): string[] {
  return readdirSync(join(DIST, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = folder ? `${folder}/${entry.name}` : entry.name;
    return entry.isDirectory() ? filesUnder(path) : [path];
  });
}

describe('the start', () => {
  test('needs at most 60 kB of script after gzip', () => {
    const files = startFiles();
    const total = files.reduce((sum, file) => sum + shrunk(file), 0);
    expect(files.length).toBeGreaterThan(0);
    expect(total, files.map((file) => `${shrunk(file)} ${file}`).join('\n')).toBeLessThanOrEqual(HOME_BUDGET);
  });

  test('preloads nothing that it does not need', () => {
    const page = read('index.html').toString();
    const preloaded = [...page.matchAll(/rel="modulepreload"[^>]*href="\/([^"]+)"/g)].map((match) => match[1]);
    expect(startFiles()).toEqual(expect.arrayContaining(preloaded));
  });

  test('has no script, style or frame from another origin and none written into the page', () => {
    const page = read('index.html').toString();
    expect(page).not.toMatch(/(?:src|href)="(?:https?:)?\/\//);
    expect(page).not.toMatch(/<script(?![^>]*\ssrc=)/);
    expect(page).not.toMatch(/<style|<iframe/);
  });
});

describe('what is loaded when it is first needed', () => {
  test('is every screen but home, each with a script of its own', () => {
    const later = Object.values(chunks).flatMap((chunk) => chunk.dynamicImports ?? []);
    const screens = [
      'walk/walk',
      'home/startAudit',
      'station/sync',
      'plan/search',
      'help/help',
      'settings/settings',
      'bring-in/bringIn',
      'plan/plan',
    ];
    for (const screen of screens) {
      expect(later).toContain(`src/ui/${screen}.tsx`);
      expect(startFiles()).not.toContain(chunks[`src/ui/${screen}.tsx`].file);
    }
  });

  test('is the camera, the decoder, the workers and the reading of sheets', () => {
    const script = startFiles()
      .map((file) => read(file).toString())
      .join('\n');
    expect(startFiles().filter((file) => /camera|decode|worker|zxing|sheet/i.test(file))).toEqual([]);
    // Names that the libraries use inside, so that no other name of a file hides them.
    for (const inside of ['Html5Qrcode', 'readBarcodes', 'ZXing', 'papaparse']) {
      expect(script.includes(inside), inside).toBe(false);
    }
  });
});

describe('the service worker keeps', () => {
  test('every built file that a page can ask for, once', () => {
    // woff is for browsers older than any that can run the app; the help's pictures are a luxury of the network.
    const wanted = filesUnder('').filter(
      (file) => !/^(?:\.vite\/|help\/|sw\.js$)|\.woff$/.test(file) && !file.startsWith('.'),
    );
    expect([...precached].sort()).toEqual(wanted.sort());
  });

  test('the decoder, the fonts, the workers and the demo station', () => {
    const has = (pattern: RegExp) => precached.filter((file) => pattern.test(file)).length;
    expect(has(/zxing_reader-[\w-]+\.wasm$/)).toBe(1);
    expect(has(/\.woff2$/)).toBeGreaterThanOrEqual(2);
    expect(has(/\.worker-[\w-]+\.js$/)).toBe(
      readdirSync(join(DIST, 'assets')).filter((f) => /\.worker-/.test(f)).length,
    );
    expect(has(/\.worker-[\w-]+\.js$/)).toBeGreaterThanOrEqual(2);
    expect(has(/^demo\/.+\.xlsx$/)).toBeGreaterThanOrEqual(1);
  });

  test('no more than an install over a slow link can bear', () => {
    const total = precached.reduce((sum, file) => sum + shrunk(file), 0);
    expect(total).toBeLessThanOrEqual(INSTALL_BUDGET);
  });
});

describe('the app on the home screen', () => {
  const size = (file: string) => {
    // PNG, width and height: two big-endian numbers from byte 16 on (W3C PNG specification, IHDR).
    const bytes = read(file);
    return `${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`;
  };

  test('has icons of the sizes that it claims, a maskable one among them', () => {
    const manifest = JSON.parse(read('manifest.webmanifest').toString()) as {
      icons: { src: string; sizes: string; type: string; purpose?: string }[];
    };
    const drawn = manifest.icons.filter((icon) => icon.type === 'image/png');
    expect(drawn.map((icon) => size(icon.src.slice(1)))).toEqual(drawn.map((icon) => icon.sizes));
    expect(drawn.map((icon) => icon.sizes)).toEqual(expect.arrayContaining(['192x192', '512x512']));
    expect(manifest.icons.some((icon) => icon.purpose === 'maskable')).toBe(true);
    expect(size('icons/apple-touch-icon.png')).toBe('180x180');
  });
});

// What the first load may cost and what must be on the phone before the walk, read from the build in dist/. Bytes are
// counted, so they are asserted; times are not (npm run bench). Nothing is built here.
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import * as z from 'zod/mini';

const DIST = join(import.meta.dirname, '..', 'dist');
const LIMIT = 60_000;

const manifestSchema = z.record(
  z.string(),
  z.object({
    file: z.string(),
    name: z.optional(z.string()),
    src: z.optional(z.string()),
    isEntry: z.optional(z.boolean()),
    imports: z.optional(z.array(z.string())),
    dynamicImports: z.optional(z.array(z.string())),
  }),
);
type Manifest = z.infer<typeof manifestSchema>;

let manifest: Manifest;
let first: string[];
beforeAll(() => {
  const file = join(DIST, '.vite', 'manifest.json');
  if (!existsSync(file) || !existsSync(join(DIST, 'sw.js'))) {
    throw new Error('There is no build in dist/. Run npm run build, or npm test, which builds first.');
  }
  manifest = z.parse(manifestSchema, JSON.parse(readFileSync(file, 'utf8')));
  first = firstLoad(manifest);
});

/** The entry and everything it imports statically, as keys of the manifest. */
function firstLoad(all: Manifest): string[] {
  const found = new Set<string>();
  const take = (key: string) => {
    if (found.has(key)) return;
    found.add(key);
    for (const next of all[key]?.imports ?? []) take(next);
  };
  for (const [key, { isEntry }] of Object.entries(all)) if (isEntry && key === 'index.html') take(key);
  return [...found];
}

const text = (key: string) => readFileSync(join(DIST, manifest[key]!.file), 'utf8');

describe('the first load', () => {
  it('is at most 60 kB of packed script', () => {
    const sizes = first.map((key) => [manifest[key]!.file, gzipSync(text(key), { level: 9 }).length] as const);
    const total = sizes.reduce((sum, [, bytes]) => sum + bytes, 0);
    expect(total, JSON.stringify(sizes)).toBeLessThanOrEqual(LIMIT);
    // A build that lost its entry would be small, too.
    expect(total).toBeGreaterThan(5_000);
  });

  it('holds neither camera nor decoder, neither worker nor a screen other than home', () => {
    const parts = first.flatMap((key) => [key, manifest[key]!.name ?? '', manifest[key]!.src ?? '']);
    expect(parts.filter((part) => /camera|decode|worker|html5|zxing|sheet/i.test(part))).toEqual([]);
    expect(parts.filter((part) => /screens\/(?!home)/.test(part))).toEqual([]);
    const script = first.map(text).join('\n');
    // Names that their own authors use inside: the camera's library, the decoder's glue, the database, the sheets.
    for (const inside of ['Html5Qrcode', 'readBarcodes', 'ZXing', 'DexieError', 'papaparse']) {
      expect(script.includes(inside), inside).toBe(false);
    }
  });

  it('leaves each other screen to a script of its own', () => {
    const later = Object.values(manifest).flatMap(({ dynamicImports }) => dynamicImports ?? []);
    for (const screen of ['walk', 'startAudit', 'sync', 'search', 'help', 'settings', 'bringIn', 'plan']) {
      expect(later).toContain(`src/ui/screens/${screen}.tsx`);
    }
  });
});

describe('what is on the phone before the walk', () => {
  /** The list that the build writes into the service worker. */
  function precached(): string[] {
    const worker = readFileSync(join(DIST, 'sw.js'), 'utf8');
    return [...worker.matchAll(/["'`]?\burl["'`]?\s*:\s*["'`]([^"'`]+)["'`]/g)].map((match) =>
      match[1]!.replace(/^\//, ''),
    );
  }

  it('is every script, style, font, decoder and demo file, and the page', () => {
    const built = readdirSync(DIST, { recursive: true, encoding: 'utf8' })
      .map((name) => relative(DIST, join(DIST, name)))
      .filter((name) => statSync(join(DIST, name)).isFile())
      .filter((name) => !name.startsWith('.vite/') && !name.startsWith('help/') && name !== 'sw.js');
    const owed = built.filter((name) => /\.(js|css|woff2|wasm)$/.test(name) || name.startsWith('demo/'));
    expect(owed.filter((name) => name.endsWith('.wasm'))).not.toEqual([]);
    expect(owed.filter((name) => name.startsWith('demo/')).length).toBeGreaterThanOrEqual(4);
    const listed = new Set(precached());
    expect([...owed, 'index.html'].filter((name) => !listed.has(name))).toEqual([]);
  });

  it('names nothing that is not there, and nothing twice', () => {
    const listed = precached();
    expect(listed.filter((name) => !existsSync(join(DIST, name)))).toEqual([]);
    expect(listed.length).toBe(new Set(listed).size);
  });
});

// The import table and the house rules that no compiler setting can see. Read from the files' own import statements.
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '..');

/** What each folder may import beside itself, and which packages. `node:` stands for Node's own modules. */
const TABLE: Record<string, { folders: string[]; packages: string[] }> = {
  core: { folders: [], packages: ['zod/mini'] },
  wire: { folders: ['core'], packages: ['zod/mini'] },
  files: { folders: ['core', 'wire'], packages: ['zod/mini', 'fflate', 'papaparse', 'read-excel-file/universal'] },
  sync: { folders: ['core', 'wire'], packages: ['zod/mini'] },
  store: { folders: ['core', 'wire'], packages: ['zod/mini', 'dexie'] },
  scan: { folders: ['core'], packages: ['html5-qrcode'] },
  ui: {
    folders: ['core', 'wire', 'store', 'scan', 'sync'],
    packages: ['preact', 'preact/hooks', '@preact/signals', 'uqr', 'workbox-window'],
  },
  workers: {
    folders: ['core', 'wire', 'files'],
    packages: ['zod/mini', 'zxing-wasm/reader', 'zxing-wasm/reader/zxing_reader.wasm?url'],
  },
  main: {
    folders: ['core', 'wire', 'files', 'store', 'scan', 'sync', 'ui', 'workers'],
    packages: ['zod/mini', 'preact', '@preact/signals'],
  },
  server: {
    folders: ['core', 'wire', 'files'],
    packages: ['zod/mini', 'node:', '@hono/node-server', 'hono', 'kysely', 'better-sqlite3', 'pg', 'uqr'],
  },
  cli: {
    folders: ['core', 'wire', 'files'],
    packages: ['zod/mini', 'node:', 'fflate', 'write-excel-file/universal', 'playwright-core'],
  },
  sw: { folders: ['wire'], packages: ['workbox-precaching', 'workbox-routing'] },
};

interface Source {
  file: string;
  folder: string;
  text: string;
  imports: { from: string; typeOnly: boolean }[];
}

function readImports(text: string): Source['imports'] {
  const patterns = [
    /^(?:import|export)\s+(type\s)?[^'";]*?from\s+'([^']+)'/gm,
    /^import\s+()'([^']+)'/gm,
    /\bimport\(\s*()['"`]([^'"`]+)['"`]/g,
    /\bnew URL\(\s*()['"`](\.[^'"`]+)['"`],\s*import\.meta\.url/g,
  ];
  return patterns.flatMap((pattern) =>
    [...text.matchAll(pattern)].map(([, type, from = '']) => ({ from, typeOnly: Boolean(type) })),
  );
}

function readSources(): Source[] {
  const files = ['src', 'sw'].flatMap((top) =>
    readdirSync(join(ROOT, top), { recursive: true, encoding: 'utf8' }).map((name) => join(top, name)),
  );
  return files
    .filter((file) => /\.(ts|tsx|js)$/.test(file))
    .sort()
    .map((file) => {
      const parts = file.split('/');
      const folder = parts[0] === 'sw' ? 'sw' : parts.length === 2 ? 'main' : (parts[1] ?? '');
      const text = readFileSync(join(ROOT, file), 'utf8');
      return { file, folder, text, imports: readImports(text) };
    });
}

const sources = readSources();
const byFile = new Map(sources.map((source) => [source.file, source]));
const PURE = new Set(['core', 'files', 'sync']);

/** Import of another file of the project, from the root; null for a package. */
function toFile(source: Source, from: string): string | null {
  return from.startsWith('.') ? normalize(join(dirname(source.file), from)) : null;
}

function folderOf(file: string): string {
  return byFile.get(file)?.folder ?? file;
}

/** Code with comments blanked; good enough for the words looked for here, all of which stand outside of strings. */
function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');
}

function findCycles(): string[] {
  const state = new Map<string, 'open' | 'done'>();
  const found: string[] = [];
  const visit = (file: string, path: string[]): void => {
    if (state.get(file) === 'done') return;
    if (state.get(file) === 'open') {
      found.push([...path.slice(path.indexOf(file)), file].join(' > '));
      return;
    }
    state.set(file, 'open');
    const source = byFile.get(file);
    for (const { from, typeOnly } of source?.imports ?? []) {
      const target = source ? toFile(source, from) : null;
      // A type leaves no import behind, so only what runs can run in a circle.
      if (target && !typeOnly && byFile.has(target)) visit(target, [...path, file]);
    }
    state.set(file, 'done');
  };
  for (const file of byFile.keys()) visit(file, []);
  return found;
}

const every = (rule: (source: Source) => string[] | boolean): string[] =>
  sources.flatMap((source) => {
    const found = rule(source);
    return Array.isArray(found) ? found.map((what) => `${source.file}: ${what}`) : found ? [source.file] : [];
  });

describe('the import table', () => {
  it('reads the files it judges, and imports of every shape', () => {
    expect(sources.length).toBeGreaterThan(100);
    expect(new Set(sources.map((source) => source.folder))).toEqual(new Set(Object.keys(TABLE)));
    const sample = [
      "import { a,\n  b } from './a.ts';",
      "import type { C } from './c.ts';",
      "import './d.css';",
      "export { e } from './e.ts';",
      "const f = () => import('./f.ts');",
      "new Worker(new URL('./g.ts', import.meta.url));",
    ].join('\n');
    expect(readImports(sample).map(({ from, typeOnly }) => (typeOnly ? `type ${from}` : from))).toEqual(
      expect.arrayContaining(['./a.ts', 'type ./c.ts', './d.css', './e.ts', './f.ts', './g.ts']),
    );
    expect(readImports(sample)).toHaveLength(6);
  });

  it('lets each folder import only the folders below it', () => {
    const wrong = every((source) =>
      source.imports.flatMap(({ from }) => {
        const target = toFile(source, from);
        if (!target) return [];
        if (target.endsWith('.css')) return folderOf(source.file) === 'main' || source.folder === 'ui' ? [] : [target];
        if (!byFile.has(target)) return [`${from} is no source file`];
        const folder = folderOf(target);
        return folder === source.folder || TABLE[source.folder]?.folders.includes(folder) ? [] : [target];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it('lets screens know the other sides by their types, and the store by its reading and writing alone', () => {
    const wrong = every((source) =>
      source.imports.flatMap(({ from, typeOnly }) => {
        const target = source.folder === 'ui' ? toFile(source, from) : null;
        if (!target || typeOnly) return [];
        return ['wire', 'store', 'sync'].includes(folderOf(target)) ? [target] : [];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it('lets each folder use only its own npm packages, and zod only as zod/mini', () => {
    const wrong = every((source) =>
      source.imports.flatMap(({ from }) => {
        if (from.startsWith('.')) return [];
        const allowed = TABLE[source.folder]?.packages ?? [];
        const fits = allowed.some((name) =>
          name === 'node:' ? from.startsWith(name) : from === name || (name === 'hono' && from.startsWith('hono/')),
        );
        return fits ? [] : [from];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it('has no circle of files', () => {
    expect(findCycles()).toEqual([]);
  });

  it('has no barrel file and no import of a test', () => {
    expect(sources.map(({ file }) => file).filter((file) => /(^|\/)index\.(ts|tsx|js)$/.test(file))).toEqual([]);
    expect(every(({ imports }) => imports.some(({ from }) => /(^|\/)tests\//.test(from)))).toEqual([]);
  });

  it('keeps the launchers free of everything that must be installed first', () => {
    const launchers = sources.filter(({ file }) => file.endsWith('.js'));
    expect(launchers.map(({ file }) => relative('src/cli', file))).toContain('setup.js');
    for (const { file, imports } of launchers) {
      expect(
        imports.map(({ from }) => from).filter((from) => !/^node:|^\.\/\w+\.js$/.test(from)),
        file,
      ).toEqual([]);
    }
  });
});

describe('house rules', () => {
  it('takes clock, ids and randomness as arguments in the pure folders', () => {
    const forbidden = /\bDate\.now\b|\bMath\.random\b|\bnew Date\(\s*\)|\bDate\(\s*\)|\bcrypto\b|\bperformance\b/g;
    expect(
      every(({ folder, text }) => (PURE.has(folder) ? (withoutComments(text).match(forbidden) ?? []) : [])),
    ).toEqual([]);
  });

  it('keeps files to 350 lines', () => {
    expect(every(({ text }) => text.split('\n').length - 1 > 350)).toEqual([]);
  });

  it('opens each file with a comment that says what it owns', () => {
    expect(every(({ text }) => !/^(\/\/ |\/\*\*? |\/\/\/ )/.test(text))).toEqual([]);
  });

  it('never writes markup from text', () => {
    const markup = /dangerouslySetInnerHTML|\.(?:inner|outer)HTML\b|insertAdjacentHTML|document\.write/g;
    expect(every(({ text }) => withoutComments(text).match(markup) ?? [])).toEqual([]);
  });

  it('silences no checker', () => {
    const silenced = /@ts-(?:ignore|nocheck|expect-error)|biome-ignore|:\s*any\b|\bas any\b|\bTO[D]O\b|\bFIX[M]E\b/g;
    expect(every(({ text }) => text.match(silenced) ?? [])).toEqual([]);
  });
});

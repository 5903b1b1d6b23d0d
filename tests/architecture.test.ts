// Holds the walls between folders that the compiler does not see: who may import whom, which packages, no cycles, no
// hidden clock or chance, no way to write raw HTML, files of a size that can be read. Reads the sources as text.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');

type Rule = { folders: string[]; packages: RegExp };

const NOTHING = /^$/;
const ZOD = /^zod\/mini$/;
/** Which folders and which packages each folder may import besides itself. */
const TABLE: Record<string, Rule> = {
  core: { folders: [], packages: ZOD },
  wire: { folders: ['core'], packages: ZOD },
  files: {
    folders: ['core', 'wire'],
    packages: /^(?:zod\/mini|fflate|papaparse|write-excel-file\/universal|uqr)$/,
  },
  sync: { folders: ['core', 'wire'], packages: ZOD },
  store: { folders: ['core', 'wire'], packages: /^(?:dexie|fflate|zod\/mini)$/ },
  scan: { folders: ['core'], packages: /^(?:html5-qrcode|@preact\/signals)$/ },
  ui: {
    folders: ['core', 'store', 'scan', 'sync', 'wire'],
    packages: /^(?:preact(?:\/hooks)?|@preact\/signals|workbox-window|uqr|zod\/mini|@fontsource\/.+)$/,
  },
  workers: {
    folders: ['core', 'wire', 'files'],
    packages: /^(?:zod\/mini|zxing-wasm\/reader(?:\/zxing_reader\.wasm\?url)?)$/,
  },
  main: {
    folders: ['core', 'wire', 'files', 'store', 'scan', 'sync', 'ui', 'workers'],
    packages: /^(?:preact(?:\/hooks)?|@preact\/signals|dexie|fflate|zod\/mini)$/,
  },
  server: {
    folders: ['core', 'wire', 'files'],
    packages: /^(?:node:.+|hono(?:\/.+)?|@hono\/node-server(?:\/.+)?|kysely|better-sqlite3|pg|uqr|zod\/mini)$/,
  },
  cli: {
    folders: ['core', 'wire', 'files'],
    packages: /^(?:node:.+|fflate|write-excel-file\/universal|playwright-core|vite|rolldown|better-sqlite3|kysely|pg)$/,
  },
  sw: { folders: ['wire'], packages: /^workbox-(?:precaching|routing)$/ },
};
/** The parts of a folder that others may see, where not all of it is meant for them. Types cost nothing and may pass. */
const DOORS: Record<string, Record<string, RegExp>> = {
  ui: { store: /\/(?:queries|commands)\.ts$/, wire: NOTHING },
};

/** Of core, each knowing only those before it. */
const STAGES = [
  'trade',
  'plan',
  'schedule',
  'record',
  'rules',
  'impact',
  'causes',
  'renaming',
  'fixes',
  'walk',
  'report',
];

interface Import {
  from: string;
  said: string;
  /** The file in this project, or null for a package. */
  to: string | null;
  typeOnly: boolean;
}

function filesUnder(folder: string, endings: RegExp): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return filesUnder(path, endings);
    return endings.test(entry.name) ? [path] : [];
  });
}

const textOf = (path: string) => readFileSync(join(ROOT, path), 'utf8');
const codeOf = (path: string) => textOf(path).replace(/\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/.*$/gm, '');

/** src/main.tsx and src/main/ are one: the place where the parts are joined. */
function folderOf(path: string): string {
  const [top, second = ''] = path.split('/');
  return top === 'src' ? second.replace(/\.tsx?$/, '') : top;
}

function importsOf(path: string): Import[] {
  const code = codeOf(path);
  const patterns = [
    /\b(?:import|export)\s+(type\s)?[^'";]*?\bfrom\s*'([^']+)'/g,
    /\bimport\s*(?:()\(\s*)?'([^']+)'/g,
    /\bnew URL\(\s*()'(\.[^']+)'\s*,\s*import\.meta\.url/g,
  ];
  return patterns.flatMap((pattern) =>
    [...code.matchAll(pattern)].map(([, type, said]) => ({
      from: path,
      said,
      to: said.startsWith('.') ? relative(ROOT, resolve(ROOT, dirname(path), said)).replace(/\?.*$/, '') : null,
      typeOnly: type !== undefined && type !== '',
    })),
  );
}

const scripts = [...filesUnder('src', /\.(?:tsx?|js)$/), ...filesUnder('sw', /\.ts$/)];
const typed = scripts.filter((path) => !path.endsWith('.js'));
const tests = filesUnder('tests', /\.tsx?$/);
const imports = typed.flatMap(importsOf);
const pureFolders = ['core', 'wire', 'files', 'sync'];

describe('imports', () => {
  test('the sources are found and read', () => {
    expect(typed.length).toBeGreaterThan(50);
    expect(imports.length).toBeGreaterThan(typed.length);
    expect(Object.keys(TABLE)).toEqual(expect.arrayContaining([...new Set(typed.map(folderOf))]));
  });

  test('go only where the table allows', () => {
    const wrong = imports.flatMap(({ from, to, typeOnly }) => {
      if (to === null || /\.(?:css|json)$/.test(to)) return [];
      const [mine, theirs] = [folderOf(from), folderOf(to)];
      if (mine === theirs) return [];
      const door = DOORS[mine]?.[theirs];
      const allowed = TABLE[mine].folders.includes(theirs) && (!door || typeOnly || door.test(to));
      return allowed ? [] : [`${from} imports ${to}`];
    });
    expect(wrong).toEqual([]);
  });

  test('name only packages that the folder may use', () => {
    const wrong = imports.filter(({ from, said, to }) => to === null && !TABLE[folderOf(from)].packages.test(said));
    expect(wrong.map(({ from, said }) => `${from} imports ${said}`)).toEqual([]);
  });

  test('name files that exist, with their endings', () => {
    const wrong = imports.filter(({ to }) => to !== null && !/\.\w+$/.test(to));
    expect(wrong.map(({ from, said }) => `${from} imports ${said}`)).toEqual([]);
    const gone = imports.filter(({ to }) => to !== null && !existsSync(join(ROOT, to)));
    expect(gone.map(({ from, said }) => `${from} imports ${said}`)).toEqual([]);
  });

  test('know in core only the stages before their own', () => {
    const stageOf = (path: string) => (path.startsWith('src/core/') ? STAGES.indexOf(path.split('/')[2] ?? '') : -1);
    const stages = new Set(typed.filter((path) => path.startsWith('src/core/')).map((path) => path.split('/')[2]));
    expect([...stages].sort()).toEqual([...STAGES].sort());
    const ahead = imports.filter(
      ({ from, to }) => to !== null && stageOf(to) >= 0 && stageOf(from) >= 0 && stageOf(to) > stageOf(from),
    );
    expect(ahead.map(({ from, to }) => `${from} > ${to}`)).toEqual([]);
  });

  test('never go round in a circle, types included', () => {
    const next = new Map<string, string[]>();
    for (const { from, to } of imports) if (to !== null) next.set(from, [...(next.get(from) ?? []), to]);
    const done = new Set<string>();
    const circles: string[] = [];
    const walk = (path: string, trail: string[]) => {
      const at = trail.indexOf(path);
      if (at >= 0) circles.push([...trail.slice(at), path].join(' > '));
      if (at >= 0 || done.has(path)) return;
      for (const to of next.get(path) ?? []) walk(to, [...trail, path]);
      done.add(path);
    };
    for (const path of typed) walk(path, []);
    expect(circles).toEqual([]);
  });

  test('from the sources never reach the tests', () => {
    expect(imports.filter(({ to }) => to?.startsWith('tests/')).map(({ from }) => from)).toEqual([]);
  });
});

describe('files', () => {
  const breaking = (paths: string[], pattern: RegExp) => paths.filter((path) => pattern.test(codeOf(path)));

  test('are never barrels', () => {
    expect(scripts.filter((path) => /\/index\.\w+$/.test(path))).toEqual([]);
    expect(breaking(typed, /^export (?:type )?\*/m)).toEqual([]);
    const passedOn = /^export (?:type )?\{[^}]*\} from .*$/gm;
    const only = typed.filter(
      (path) => passedOn.test(codeOf(path)) && !/^export\b/m.test(codeOf(path).replace(passedOn, '')),
    );
    expect(only).toEqual([]);
  });

  test('have at most 350 lines', () => {
    const long = scripts.filter((path) => textOf(path).split('\n').length - 1 > 350);
    expect(long).toEqual([]);
  });

  test('stand at most 25 to a folder, and none differs from another by its ending alone', () => {
    const byFolder = new Map<string, string[]>();
    for (const path of scripts) byFolder.set(dirname(path), [...(byFolder.get(dirname(path)) ?? []), path]);
    expect(
      [...byFolder].flatMap(([folder, paths]) => (paths.length > 25 ? [`${folder}: ${paths.length}`] : [])),
    ).toEqual([]);
    const bare = scripts.map((path) => path.replace(/\.[^./]+$/, ''));
    expect(bare.filter((path, i) => bare.indexOf(path) !== i)).toEqual([]);
  });

  test('open with one to four lines that say what they own', () => {
    const wrong = [...scripts, ...tests].filter((path) => {
      const lines = textOf(path)
        .replace(/^#!.*\n/, '')
        .split('\n');
      // Limits may follow after a blank comment line.
      const header = lines.findIndex((line) => !line.startsWith('//') || line === '//');
      return header < 1 || header > 4;
    });
    expect(wrong).toEqual([]);
  });

  test('take the clock and chance as arguments wherever the record is made or read', () => {
    const pure = typed.filter((path) => pureFolders.includes(folderOf(path)));
    expect(pure.length).toBeGreaterThan(20);
    expect(
      breaking(pure, /\bDate\.now\b|\bMath\.random\b|\bnew Date\(\s*\)|\bDate\(\)|\brandomUUID\b|\bgetRandomValues\b/),
    ).toEqual([]);
  });

  test('never put text on the page as HTML', () => {
    const pattern =
      /dangerouslySetInnerHTML|\.(?:inner|outer)HTML\b|insertAdjacentHTML|document\.write|\beval\(|new Function\(/;
    expect(breaking(scripts, pattern)).toEqual([]);
  });

  test('silence no tool and leave nothing for later', () => {
    const pattern = new RegExp(
      ['biome', 'ts'].map((tool) => `${tool}-(?:ignore|expect-error|nocheck)`).join('|') +
        '|\\bTO' +
        'DO\\b|\\bFIX' +
        'ME\\b',
    );
    expect([...scripts, ...tests].filter((path) => pattern.test(textOf(path)))).toEqual([]);
  });
});

describe('tests', () => {
  test('are never skipped, singled out or put off', () => {
    const pattern = /\b(?:test|it|describe)\.(?:skip|only|todo|fails|skipIf|runIf)\b/;
    expect(tests.filter((path) => pattern.test(codeOf(path)))).toEqual([]);
  });

  test('wait for what they need and never by the clock', () => {
    const pattern = /\bwaitForTimeout\b|\bvi\.wait(?:For|Until)\b/;
    expect(tests.filter((path) => pattern.test(codeOf(path)))).toEqual([]);
  });
});

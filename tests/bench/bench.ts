// `npm run bench`: one table of what takes how long, each row beside its goal or a peer from the same run, and
// tests/bench/latest.json for comparing. Times fail nothing; the counted work is held by tests.
import { mkdir, writeFile } from 'node:fs/promises';
import { cpus } from 'node:os';
import { dirname, join } from 'node:path';
import { measureBrowser } from './benchBrowser.ts';
import { measureCauses, measureExplaining } from './benchCauses.ts';
import { measureCore } from './benchCore.ts';
import { measureFiles } from './benchFiles.ts';
import { isOver, type Row, rowsToTable } from './benchMeasure.ts';
import { measurePhones } from './benchPhones.ts';
import { measureRevisions } from './benchRevisions.ts';
import { measureServer } from './benchServer.ts';

interface Streams {
  out: (text: string) => void;
  err: (text: string) => void;
}

const toConsole: Streams = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
};

type Measuring = (say: (text: string) => void, root: string, events: number) => Row[] | Promise<Row[]>;

/** Of the station that the server is measured with. */
const EVENTS = 100_000;

/** What `--only` may name, each without the others. */
const PARTS: Readonly<Record<string, Measuring>> = {
  core: measureCore,
  explaining: measureExplaining,
  causes: measureCauses,
  files: measureFiles,
  revisions: measureRevisions,
  server: measureServer,
  phones: measurePhones,
  'first-load': (say, root) => measureBrowser('first-load', say, root),
  touches: (say, root) => measureBrowser('touches', say, root),
  design: (say, root) => measureBrowser('design', say, root),
};

/**
 * @returns 0 when everything could be measured, also when a goal was missed; 2 on an unknown option. A run of single
 *   parts prints its table and leaves the file of the whole run as it was.
 */
export async function main(argv: string[], streams: Streams = toConsole, root = process.cwd()): Promise<number> {
  const asked = readAsked(argv);
  if (!asked) {
    const parts = Object.keys(PARTS).join(', ');
    streams.err(`Usage: npm run bench [-- --events N] [--only PART …], where PART is one of: ${parts}\n`);
    return 2;
  }
  const { events, only } = asked;
  const say = (text: string) => streams.err(`${text}\n`);
  const rows: Row[] = [];
  for (const [name, part] of Object.entries(PARTS)) {
    if (only.length === 0 || only.includes(name)) rows.push(...(await part(say, root, events)));
  }
  const machine = { node: process.version, cpu: cpus()[0]?.model ?? 'unknown', cores: cpus().length };
  streams.out(`${rowsToTable(rows)}\n\n`);
  const over = rows.filter(isOver);
  streams.out(
    over.length === 0
      ? 'Every goal is held.\n'
      : `Over the goal: ${over.map((row) => `${row.name} (${row.size})`).join('; ')}.\n`,
  );
  streams.out(`Node ${machine.node}, ${machine.cores} × ${machine.cpu}. Median of 7 runs after 2 to warm up.\n`);
  if (only.length > 0) return 0;
  const file = join(root, 'tests', 'bench', 'latest.json');
  await mkdir(dirname(file), { recursive: true });
  await writeFile(file, `${JSON.stringify({ machine, rows }, null, 2)}\n`);
  return 0;
}

/** Null for options that are none. */
function readAsked(argv: string[]): { events: number; only: string[] } | null {
  const given = argv[0] === '--events' ? argv.slice(2) : argv;
  const events = argv[0] === '--events' ? Number(argv[1]) : EVENTS;
  const [option, ...only] = given;
  if (!Number.isInteger(events) || events < 1000) return null;
  if (option === undefined) return { events, only };
  if (option !== '--only' || only.length === 0 || only.some((name) => !(name in PARTS))) return null;
  return { events, only };
}

// `npm run faults`: the fault run for minutes instead of a hundred acts. Says its counts on standard output, how far it
// is on standard error, and ends with 1 when anything was lost, doubled or changed.
import 'fake-indexeddb/auto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { startPostgres } from '../server/postgres.ts';
import { bundleServer } from '../server/process.ts';
import { type FaultOptions, faultRun } from './faultRun.ts';
import { countsText } from './faultVerdict.ts';

const USE = 'npm run faults -- [--seed N] [--phones 4] [--minutes 5] [--database sqlite|postgresql] [--browsers 2]';

function readNumber(text: string, least: number): number | null {
  const number = Number(text);
  return Number.isFinite(number) && number >= least ? number : null;
}

/** Loaded only where there are browsers to drive. */
async function guestsOf(count: number): Promise<NonNullable<FaultOptions['guests']>> {
  const { openGuests } = await import('../browser/faultGuests.ts');
  return (origin, code) => openGuests(count, origin, code);
}

export async function main(args: string[]): Promise<number> {
  const { values } = parseArgs({
    args,
    options: {
      seed: { type: 'string', default: String(Math.floor(Math.random() * 1e9)) },
      phones: { type: 'string', default: '4' },
      minutes: { type: 'string', default: '5' },
      database: { type: 'string', default: 'sqlite' },
      browsers: { type: 'string', default: '0' },
    },
  });
  const [seed, phones, minutes] = [
    readNumber(values.seed, 0),
    readNumber(values.phones, 1),
    readNumber(values.minutes, 0.1),
  ];
  const browsers = readNumber(values.browsers, 0);
  if (
    browsers === null ||
    seed === null ||
    phones === null ||
    minutes === null ||
    !['sqlite', 'postgresql'].includes(values.database)
  ) {
    process.stderr.write(`${USE}\n`);
    return 2;
  }
  const say = (text: string) => void process.stderr.write(`${text}\n`);
  const folder = mkdtempSync(join(tmpdir(), 'asfound-faults-'));
  const postgres = values.database === 'postgresql' ? await startPostgres() : null;
  try {
    say(`Seed ${seed}, ${phones} phones, ${minutes} minutes on ${values.database} …`);
    const server = {
      file: await bundleServer('faults'),
      folder,
      freshPostgres: postgres?.fresh ?? null,
      staticRoot: join(process.cwd(), 'dist'),
    };
    const until = Date.now() + minutes * 60_000;
    const over = () => Date.now() >= until;
    const guests = browsers > 0 ? { guests: await guestsOf(browsers) } : {};
    const counts = await faultRun({ seed, phones, over, server, say, ...guests });
    process.stdout.write(`${countsText(seed, counts)}\n`);
    return counts.lost.length + counts.twice.length + counts.differing.length + counts.failures.length === 0 ? 0 : 1;
  } finally {
    await postgres?.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

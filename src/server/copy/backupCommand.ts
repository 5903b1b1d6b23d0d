// `npm run backup` and `npm run restore` at the terminal: what was asked, what is said, and the exit code. Makes
// nothing itself.
import { existsSync, mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { DatabaseAddress } from '../database/database.ts';
import type { Random } from '../phones/pairing.ts';
import { folderToFiles, makeBackup, pruneFolder } from './backup.ts';
import { type CopyCheck, type CopyStation, isWhole } from './copyCheck.ts';
import { restoreBackup } from './restore.ts';

type CommandParts = {
  address: DatabaseAddress;
  now: () => number;
  random: Random;
  /** To the person who asked. */
  print: (text: string) => void;
  complain: (text: string) => void;
};

/** 0: done and whole. 1: done, but something in it is damaged. 2: not done. */
export type CommandEnd = 0 | 1 | 2;

const BACKUP_USE = `Say where it goes:
  npm run backup -- FILE             one file; add --replace to write over it
  npm run backup -- --into FOLDER    a file named by the time; add --keep N to remove all but the last N`;
const RESTORE_USE = 'Say which file: npm run restore -- FILE';

type Asked = { files: string[]; flags: Set<string>; values: Map<string, string> };

function readArguments(args: string[], flags: string[], valued: string[]): Asked | null {
  const asked: Asked = { files: [], flags: new Set(), values: new Map() };
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at] ?? '';
    const value = args[at + 1];
    if (flags.includes(arg)) asked.flags.add(arg);
    else if (valued.includes(arg) && value !== undefined) {
      asked.values.set(arg, value);
      at += 1;
    } else if (arg.startsWith('--')) return null;
    else asked.files.push(arg);
  }
  return asked;
}

export async function backupCommand(args: string[], parts: CommandParts): Promise<CommandEnd> {
  const asked = readArguments(args, ['--replace'], ['--into', '--keep']);
  const into = asked?.values.get('--into');
  const keep = Number(asked?.values.get('--keep') ?? Number.POSITIVE_INFINITY);
  const [file, ...more] = asked?.files ?? [];
  if (!asked || more.length > 0 || (file === undefined) === (into === undefined) || !(keep >= 1)) {
    parts.complain(BACKUP_USE);
    return 2;
  }
  const { now, address } = parts;
  const replace = asked.flags.has('--replace');
  if (into !== undefined && !existsSync(into)) mkdirSync(into, { recursive: true, mode: 0o700 });
  const names = into === undefined ? { file: resolve(file ?? '') } : folderToFiles(resolve(into), now());
  const outcome = await makeBackup(address, { ...names, replace, now });
  if (outcome.type === 'not-written') {
    parts.complain(outcome.sentence);
    return 2;
  }
  const gone = into === undefined ? [] : pruneFolder(resolve(into), keep);
  const whole = isWhole(outcome.check);
  parts.print(
    [
      `Backup written: ${outcome.file} (${size(outcome.bytes)}).`,
      ...outcome.check.stations.map(stationText),
      ...(outcome.check.stations.length === 0 ? ['The server has no station yet.'] : []),
      whole ? WHOLE : damageText(outcome.check, 'The database and this backup hold them as they are.'),
      ...(gone.length > 0 ? [`Older backups removed: ${gone.join(', ')}.`] : []),
    ].join('\n'),
  );
  return whole ? 0 : 1;
}

export async function restoreCommand(args: string[], parts: CommandParts): Promise<CommandEnd> {
  const asked = readArguments(args, [], []);
  const [file, ...more] = asked?.files ?? [];
  if (file === undefined || more.length > 0) {
    parts.complain(RESTORE_USE);
    return 2;
  }
  const { address, random, now } = parts;
  const outcome = await restoreBackup(address, { file: resolve(file), random, now });
  if (outcome.type === 'not-restored') {
    parts.complain(outcome.sentence);
    return 2;
  }
  const whole = isWhole(outcome.check);
  parts.print(
    [
      `Restored into ${outcome.into}.`,
      ...outcome.check.stations.map(stationText),
      whole ? WHOLE : damageText(outcome.check, 'Phones that still hold them give them back.'),
      'Phones stay paired. At their next contact they compare what they hold and send again what came after the backup.',
      'Earlier pairing codes no longer work; make a new one: npm run pair.',
    ].join('\n'),
  );
  return whole ? 0 : 1;
}

const WHOLE = 'Every text and every document was checked against its hash.';

function stationText(station: CopyStation): string {
  const { name, events, documents, bytes, phones } = station;
  return `  ${name}: ${count(events, 'event')}, ${count(documents, 'document')} (${size(bytes)}), ${count(phones, 'phone')}.`;
}

const MOST_NAMED = 20;

function damageText({ damaged, broken }: CopyCheck, end: string): string {
  const named = damaged.slice(0, MOST_NAMED).map(({ station, kind, id }) => `  ${kind} ${id} of station ${station}`);
  const more = damaged.length > MOST_NAMED ? [`  and ${damaged.length - MOST_NAMED} more`] : [];
  const first = damaged.length > 0 ? [`DAMAGED, not what its hash says: ${damaged.length}.`, ...named, ...more] : [];
  return [...broken.map((one) => `DAMAGED: ${one}`), ...first, end].join('\n');
}

function count(n: number, what: string): string {
  return `${n.toLocaleString('en')} ${what}${n === 1 ? '' : 's'}`;
}

function size(bytes: number): string {
  return bytes < 1_000_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}

/** The arguments with which the server asks a child process of its own for a backup. */
export function scheduledArguments(folder: string, keep: number): string[] {
  return ['--backup', '--into', join(folder), '--keep', String(keep)];
}

// Which station a code is for when somebody at the terminal asks for one. Writes nothing but the code.
import type { StationName } from '../../wire/sync.ts';
import type { Database } from '../database/database.ts';
import { listStations, type MadeCode, makeCode, type Random } from './pairing.ts';

type Asked = { type: 'any' } | { type: 'new' } | { type: 'named'; name: string };

type PairAnswer = { type: 'code'; made: MadeCode } | { type: 'which'; stations: StationName[]; sentence: string };

/** Arguments after `--pair`: nothing, `--new`, or the id or name of a station. */
export function readAsked(args: string[]): Asked {
  const [first] = args;
  if (first === undefined) return { type: 'any' };
  return first === '--new' ? { type: 'new' } : { type: 'named', name: args.join(' ') };
}

export async function askForCode(db: Database, random: Random, now: number, asked: Asked): Promise<PairAnswer> {
  const stations = await listStations(db.query);
  if (asked.type === 'new' || (asked.type === 'any' && stations.length === 0)) {
    return { type: 'code', made: await makeCode(db, random, now, null) };
  }
  const fits = stations.filter((one) => asked.type === 'any' || one.id === asked.name || one.name === asked.name);
  const [only] = fits;
  if (only && fits.length === 1) return { type: 'code', made: await makeCode(db, random, now, only) };
  const sentence =
    fits.length === 0
      ? 'There is no such station here. Use one of these, or --new for a new one:'
      : 'Which station? Say its id, as in npm run pair -- ID, or --new for a new one:';
  return { type: 'which', stations, sentence };
}

export function whichText({ sentence, stations }: Extract<PairAnswer, { type: 'which' }>): string {
  return [sentence, ...stations.map((one) => `  ${one.id}  ${one.name}`)].join('\n');
}

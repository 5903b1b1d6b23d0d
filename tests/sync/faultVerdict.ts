// What was done in a fault run and what came of it, counted and put into words. It judges and changes nothing.
import type { Fate, FaultProxy } from './faultProxy.ts';
import type { Holding } from './faultServer.ts';

export type FaultCounts = {
  acts: number;
  entries: number;
  documents: number;
  requests: number;
  kills: number;
  restarts: number;
  backups: number;
  restores: number;
  clockJumps: number;
  poison: number;
  damaged: number;
  fates: Record<Fate, number>;
  /** Rounds until all were even. */
  rounds: number;
  /** Entries and documents that somebody lacks; named by who lacks what. */
  lost: string[];
  twice: string[];
  differing: string[];
  /** What the phones' own code threw. */
  failures: string[];
};

export function noCounts(proxy: FaultProxy): FaultCounts {
  const zero = { acts: 0, entries: 0, documents: 0, requests: 0, kills: 0, restarts: 0, backups: 0, restores: 0 };
  const more = { clockJumps: 0, poison: 0, damaged: 0, rounds: 0 };
  return { ...zero, ...more, fates: proxy.counts, lost: [], twice: [], differing: [], failures: [] };
}

export type Verdict = Pick<FaultCounts, 'lost' | 'twice' | 'differing'>;

/** Strangers' entries may be there or be kept aside; what the phones made has to be there, once and as it was. */
export function judge(who: string, held: Holding, entries: Map<string, string>, documents: Set<string>): Verdict {
  const verdict: Verdict = { lost: [], twice: [], differing: [] };
  for (const [id, text] of entries) {
    const there = held.events.get(id) ?? [];
    if (there.length === 0) verdict.lost.push(`${who}: entry ${id}`);
    if (there.length > 1) verdict.twice.push(`${who}: entry ${id}`);
    if (there.some((one) => one !== text)) verdict.differing.push(`${who}: entry ${id}`);
  }
  for (const name of documents) {
    const there = held.documents.get(name) ?? [];
    if (there.length === 0) verdict.lost.push(`${who}: document ${name}`);
    if (there.length > 1) verdict.twice.push(`${who}: document ${name}`);
    if (there.some((one) => one !== name)) verdict.differing.push(`${who}: document ${name}`);
  }
  return verdict;
}

/** One line for each thing that was done and that came of it. */
export function countsText(seed: number, counts: FaultCounts): string {
  const { fates, lost, twice, differing, failures } = counts;
  const cuts = fates['request-lost'] + fates['answer-lost'] + fates['cut-up'] + fates['cut-down'];
  const foreign =
    fates['foreign-200'] +
    fates['foreign-401'] +
    fates['foreign-413'] +
    fates['foreign-502'] +
    fates.redirect +
    fates.portal;
  const some = (all: string[]) =>
    all.length === 0 ? '' : `: ${all.slice(0, 10).join('; ')}${all.length > 10 ? ' …' : ''}`;
  return [
    `Seed ${seed}: ${counts.entries} entries and ${counts.documents} documents in ${counts.acts} acts, ${counts.requests} requests`,
    `  kills of the server ${counts.kills}, of apps ${counts.restarts}`,
    `  cuts ${cuts}, late ${fates.late}, doubled ${fates.doubled}, foreign answers ${foreign}`,
    `  backups ${counts.backups}, restores ${counts.restores}, damaged rows ${counts.damaged}, poison ${counts.poison}, clock jumps ${counts.clockJumps}`,
    `  even after ${counts.rounds} rounds`,
    `  lost ${lost.length}${some(lost)}`,
    `  twice ${twice.length}${some(twice)}`,
    `  differing ${differing.length}${some(differing)}`,
    `  failures of the phones' code ${failures.length}${some([...new Set(failures)])}`,
  ].join('\n');
}

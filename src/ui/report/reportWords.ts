// Words of the report's screen that no file needs: the occasion in full and the names of the files.
import type { Occasion } from '../../core/record/events.ts';
import type { Reconciliation } from '../../core/report/reconciliation.ts';

const OCCASIONS: Record<Occasion, string> = {
  inherit: 'Inherited place: what is in every jack',
  'after-move': 'After a move: the floor against the plan',
  relabel: 'Relabelling',
  build: 'Building',
};

export function occasionToWords(occasion: Occasion | null): string {
  return occasion === null ? '' : OCCASIONS[occasion];
}

export function reportName(report: Pick<Reconciliation, 'station' | 'name' | 'lastAt'>, ending: string): string {
  const plain = `${report.station} ${report.name}`
    .normalize('NFKC')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  const date = new Date(report.lastAt || 0).toISOString().slice(0, 10);
  return `${plain.slice(0, 80) || 'report'}-${date}.${ending}`;
}

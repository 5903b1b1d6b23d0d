// The names of the report's files: plain, dated, never a path.
import type { Reconciliation } from '../../core/report/reconciliation.ts';

export function reportName(report: Pick<Reconciliation, 'station' | 'name' | 'lastAt'>, ending: string): string {
  const plain = `${report.station} ${report.name}`
    .normalize('NFKC')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  const date = new Date(report.lastAt || 0).toISOString().slice(0, 10);
  return `${plain.slice(0, 80) || 'report'}-${date}.${ending}`;
}

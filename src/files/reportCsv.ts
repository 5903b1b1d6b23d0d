// The differences of one reconciliation as CSV that no spreadsheet runs: one line each, worst first, times in UTC.
import type { Reconciliation } from '../core/report/reconciliation.ts';
import { rowsToCsv } from './csvOut.ts';

export const REPORT_COLUMNS = [
  'no',
  'severity',
  'kind',
  'what',
  'where',
  'labels',
  'found',
  'plan',
  'in words',
  'order',
  'seen at (UTC)',
  'by',
  'basis',
  'notes',
  'photos',
  'decision',
  'decided by',
  'reason',
] as const;

/** Begins with a byte order mark, without which some spreadsheets read UTF-8 as an old code page. */
export function reportToCsv(report: Pick<Reconciliation, 'lines'>): string {
  const rows = report.lines.map((line) => [
    String(line.number),
    line.severity,
    line.kind,
    line.title,
    line.places.join(' | '),
    line.labels.join(' | '),
    line.found ?? '',
    line.plan ?? '',
    line.line,
    line.order ?? '',
    line.evidence.map(({ at }) => new Date(at).toISOString()).join(' | '),
    unique(line.evidence.map(({ author }) => author)),
    unique(line.evidence.map(({ basis }) => basis)),
    line.notes.join(' | '),
    String(line.photos.length),
    line.decision.said.map(({ words }) => words).join(' | '),
    line.decision.said.map(({ by }) => by).join(' | '),
    line.decision.said.map(({ reason }) => reason ?? '').join(' | '),
  ]);
  return `\uFEFF${rowsToCsv([[...REPORT_COLUMNS], ...rows])}`;
}

function unique(list: readonly string[]): string {
  return [...new Set(list)].join(' | ');
}

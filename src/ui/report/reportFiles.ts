// The makers of report files that main.tsx lends to the report screen: screens may not reach the file formats
// themselves. Null until lent.
import { signal } from '@preact/signals';
import type { Reconciliation } from '../../core/report/reconciliation.ts';

export interface ReportFiles {
  reportToHtml(
    report: Reconciliation,
    about: { madeAt: number; version: string; timeZone?: string; pictures?: ReadonlyMap<string, string> },
  ): string;
  reportToCsv(report: Reconciliation): string;
}

export const reportFiles = signal<(() => Promise<ReportFiles>) | null>(null);

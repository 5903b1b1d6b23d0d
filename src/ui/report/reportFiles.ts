// The makers of report files that main.tsx lends to the report screen: screens may not reach the file formats
// themselves. Null until lent.
import { signal } from '@preact/signals';
import type { ReportDocument } from '../../core/report/document/document.ts';
import type { Reconciliation } from '../../core/report/reconciliation.ts';

interface ReportFiles {
  documentToHtml(document: ReportDocument, pictures?: ReadonlyMap<string, string>): string;
  reportToCsv(report: Reconciliation): string;
}

export const reportFiles = signal<(() => Promise<ReportFiles>) | null>(null);

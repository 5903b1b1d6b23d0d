// The part of the report's file that tells decisions: signed, with their reasons, and what waits for one. It repeats the
// report's data and counts nothing anew; every text goes through the table that escapes it.
import { decidedRows, decidedToWords } from '../core/report/decisionsView.ts';
import type { Reconciliation } from '../core/report/reconciliation.ts';

/** What was decided by whom and why, what has no decision yet, and what is to be amended in the record. */
export function decisionsToHtml(
  report: Pick<Reconciliation, 'lines' | 'undecided' | 'past' | 'amendments'>,
  when: (at: number) => string,
  table: (head: readonly string[], rows: readonly string[][]) => string,
): string {
  const rows = decidedRows(report.lines).map((one): string[] => {
    const disputed = one.disputed ? ' (not agreed)' : '';
    return [`No. ${one.numbers.join(', ')}`, `${one.words}${disputed}`, `${one.by}, ${when(one.at)}`, one.reason ?? ''];
  });
  const past = report.past.map((one): string[] => [
    one.about,
    one.words,
    `${one.by}, ${when(one.at)}`,
    one.reason ?? '',
  ]);
  const { ends, byHand } = report.amendments;
  const numbers = new Map(report.lines.map(({ id, number }) => [id, number]));
  const head = ['What', 'Decision', 'Signed', 'Reason'];
  return [
    `<p>${decidedToWords(report.lines, report.undecided)} Names are typed, not proven.</p>`,
    rows.length > 0 ? table(head, rows) : '',
    past.length > 0 ? `<h3>Decided, and no longer different</h3>${table(head, past)}` : '',
    ends.length + byHand.length > 0
      ? `<h3>To be amended in the record</h3>${table(
          ['Cable', 'From', 'To', 'Signed', 'Reason'],
          [
            ...ends.map((one): string[] => [
              `${one.label}, ${one.end}`,
              one.from ?? 'not in the plan',
              one.to,
              one.by,
              one.reason,
            ]),
            ...byHand.map((one): string[] => [
              `No. ${numbers.get(one.difference) ?? ''}`,
              'by hand',
              one.why,
              one.by,
              one.reason,
            ]),
          ],
        )}`
      : '',
  ].join('');
}

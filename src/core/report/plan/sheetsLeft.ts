// What the plan says and a written sheet does not, in words; other words for the same thing are none.
import type { SheetsLeft } from '../../schedule/sheets/planSheets.ts';
import { revisionView } from './revisionView.ts';

/** One line for each thing that the sheet's columns cannot say. */
export function sheetsLeftToLines(left: SheetsLeft): string[] {
  switch (left.type) {
    case 'nothing':
      return [];
    case 'unread':
      return ['The sheet could not be read again.'];
    case 'read':
      return revisionView(left.sheet, left.plan, '')
        .groups.filter(({ kind }) => kind !== 'written')
        .flatMap(({ item, n, lines }) => [
          ...lines.map(({ what, words }) => `${item} ${what}: ${words}`),
          ...(n > lines.length ? [`${n - lines.length} more of this kind: ${item}`] : []),
        ]);
  }
}

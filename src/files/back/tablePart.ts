// The part of a workbook that says which cells of a sheet are a table, widened by the column of notes and by new rows
// (ECMA-376 part 1, 18.5): a spreadsheet sorts what the table holds, and leaves what stands beside it where it is.
import { type Range, rangeName, rangeOf } from '../xlsxCells.ts';
import { attributeOf, type Splice, scanXml, spliced, toXmlText, withAttribute } from '../xml.ts';

/** @param title What the new column's header cell says; a table has to say the same. */
export function widenTable(xml: string, widened: (range: Range) => Range | null, title: string): string {
  const splices: Splice[] = [];
  let own: { was: Range; is: Range } | null = null;
  let most = 0;
  let columns = 0;
  let prefix = '';
  let list: { at: number; inside: number } | null = null;
  const isWider = () => own !== null && own.is.to.column > own.was.to.column;
  scanXml(xml, {
    open(name, attributes, at, end) {
      const set = (key: string, value: string) =>
        splices.push({ at, end, text: withAttribute(xml.slice(at, end), key, value) });
      const range = rangeOf(attributeOf(attributes, 'ref') ?? '');
      if (name === 'table' && range) {
        own = ownRange(range, attributes, widened);
        if (own) set('ref', rangeName(own.is));
      } else if (name === 'autoFilter' && range && own) {
        // It ends above a row of totals.
        const row = range.to.row + own.is.to.row - own.was.to.row;
        set('ref', rangeName({ from: range.from, to: { row, column: own.is.to.column } }));
      } else if (name === 'tableColumns') list = { at, inside: end };
      else if (name === 'tableColumn') {
        columns += 1;
        most = Math.max(most, Number(attributeOf(attributes, 'id') ?? 0));
        prefix = /^<(\w+:)/.exec(xml.slice(at, at + 40))?.[1] ?? '';
      }
    },
    text: () => undefined,
    close(name, at) {
      if (name !== 'tableColumns' || !list || !isWider()) return;
      const { at: begin, inside } = list;
      splices.push({
        at: begin,
        end: inside,
        text: withAttribute(xml.slice(begin, inside), 'count', `${columns + 1}`),
      });
      const column = `<${prefix}tableColumn id="${most + 1}" name="${toXmlText(title)}"/>`;
      splices.push({ at, end: at, text: column });
    },
  });
  return spliced(xml, splices);
}

/** Null where it stays: a table without a header has none to widen, and below a row of totals nothing is added. */
function ownRange(
  was: Range,
  attributes: string,
  widened: (range: Range) => Range | null,
): { was: Range; is: Range } | null {
  if (attributeOf(attributes, 'headerRowCount') === '0') return null;
  const is = widened(was);
  if (!is) return null;
  const hasTotals = Number(attributeOf(attributes, 'totalsRowCount') ?? 0) > 0;
  return { was, is: hasTotals ? { ...is, to: { ...is.to, row: was.to.row } } : is };
}

// The parts of a workbook around its sheets: which sheets there are, the texts they share, how their numbers are shown.
// Element and attribute names: ECMA-376 part 1, chapter 18 (SpreadsheetML).
import { Runs, type StruckText } from './shown/xlsxRuns.ts';
import { attributeOf, NOT_IN_XML, scanXml } from './xml.ts';

interface SheetPart {
  name: string;
  /** Name of its entry in the archive. */
  part: string;
  isHidden: boolean;
}

interface Workbook {
  sheets: SheetPart[];
  /** Days are counted from 1904 and not from 1900. */
  from1904: boolean;
}

/** @param relations Text of `xl/_rels/workbook.xml.rels`; '' when the archive has none. */
export function readWorkbookPart(xml: string, relations: string): Workbook {
  const targets = new Map<string, string>();
  if (relations !== '') {
    scanXml(relations, {
      open(name, attributes) {
        const id = attributeOf(attributes, 'Id');
        const target = attributeOf(attributes, 'Target');
        // A target outside the archive is nothing that is read.
        const isOutside = attributeOf(attributes, 'TargetMode') === 'External';
        if (name === 'Relationship' && id !== null && target !== null && !isOutside) targets.set(id, target);
      },
      text: () => undefined,
      close: () => undefined,
    });
  }
  const book: Workbook = { sheets: [], from1904: false };
  scanXml(xml, {
    open(name, attributes) {
      if (name === 'workbookPr') book.from1904 = /^(1|true)$/.test(attributeOf(attributes, 'date1904') ?? '');
      if (name !== 'sheet') return;
      const target =
        targets.get(attributeOf(attributes, 'id') ?? '') ?? `worksheets/sheet${book.sheets.length + 1}.xml`;
      const part = target.startsWith('/') ? target.slice(1) : `xl/${target}`;
      const state = attributeOf(attributes, 'state') ?? 'visible';
      book.sheets.push({
        name: attributeOf(attributes, 'name') ?? `Sheet ${book.sheets.length + 1}`,
        part,
        isHidden: state !== 'visible',
      });
    },
    text: () => undefined,
    close: () => undefined,
  });
  return book;
}

/**
 * Rich text is joined; how a text is spoken (`rPh`) is not part of it.
 * @param struck Gets the texts of which something is struck through, by their index.
 */
export function readSharedStrings(xml: string, struck?: Map<number, StruckText>): string[] {
  const strings: string[] = [];
  let current = '';
  let runs = new Runs();
  scanXml(xml, {
    open(name, attributes) {
      if (name === 'si') {
        current = '';
        runs = new Runs();
      } else runs.open(name, attributes);
    },
    text(text) {
      if (runs.isText && !runs.isSpoken) current += text;
      runs.text(text);
    },
    close(name) {
      if (name === 'si') {
        if (struck && runs.struck) struck.set(strings.length, runs.struck);
        strings.push(unescapeText(current));
      } else runs.close(name);
    },
  });
  return strings;
}

/** `_x000D_` is how a workbook writes a character that XML cannot hold (ST_Xstring, 22.9.2.19). */
export function unescapeText(text: string): string {
  if (!text.includes('_x')) return text;
  return text.replace(/_x([0-9a-f]{4})_/gi, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)));
}

/** The other way: a text that looks like such an escape is escaped itself. */
export function escapeText(text: string): string {
  return text
    .replace(/\r\n?/g, '\n')
    .replace(NOT_IN_XML, '\ufffd')
    .replace(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_');
}

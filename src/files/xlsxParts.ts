// The parts of a workbook around its sheets: which sheets there are, the texts they share, how their numbers are shown.
// Element and attribute names: ECMA-376 part 1, chapter 18 (SpreadsheetML).
import { attributeOf, scanXml } from './xml.ts';

export interface SheetPart {
  name: string;
  /** Name of its entry in the archive. */
  part: string;
  isHidden: boolean;
}

export interface Workbook {
  sheets: SheetPart[];
  /** Days are counted from 1904 and not from 1900. */
  from1904: boolean;
}

/** How a style shows a number: as a date, with an exponent, padded with zeros to a width. */
export type NumberLook = { type: 'plain' } | { type: 'date' } | { type: 'exponent' } | { type: 'zeros'; width: number };

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

/** Rich text is joined; how a text is spoken (`rPh`) is not part of it. */
export function readSharedStrings(xml: string): string[] {
  const strings: string[] = [];
  let current = '';
  let isText = false;
  let isSpoken = false;
  scanXml(xml, {
    open(name) {
      if (name === 'si') current = '';
      else if (name === 't') isText = true;
      else if (name === 'rPh') isSpoken = true;
    },
    text(text) {
      if (isText && !isSpoken) current += text;
    },
    close(name) {
      if (name === 'si') strings.push(unescapeText(current));
      else if (name === 't') isText = false;
      else if (name === 'rPh') isSpoken = false;
    },
  });
  return strings;
}

/** `_x000D_` is how a workbook writes a character that XML cannot hold (ST_Xstring, 22.9.2.19). */
export function unescapeText(text: string): string {
  if (!text.includes('_x')) return text;
  return text.replace(/_x([0-9a-f]{4})_/gi, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)));
}

/** How each style shows a number, by its index. */
export function readStyles(xml: string): NumberLook[] {
  const formats = new Map<number, string>();
  const looks: NumberLook[] = [];
  let isCells = false;
  scanXml(xml, {
    open(name, attributes) {
      if (name === 'numFmt') {
        formats.set(Number(attributeOf(attributes, 'numFmtId')), attributeOf(attributes, 'formatCode') ?? '');
      } else if (name === 'cellXfs') isCells = true;
      else if (name === 'xf' && isCells) {
        const id = Number(attributeOf(attributes, 'numFmtId') ?? 0);
        looks.push(formatToLook(id, formats.get(id)));
      }
    },
    text: () => undefined,
    close(name) {
      if (name === 'cellXfs') isCells = false;
    },
  });
  return looks;
}

/** Built-in formats: 18.8.30. Of a format of its own, quoted words, colours and conditions tell nothing. */
function formatToLook(id: number, format: string | undefined): NumberLook {
  const isBuiltInDate =
    (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58);
  if (format === undefined) {
    if (isBuiltInDate) return { type: 'date' };
    return id === 11 || id === 48 ? { type: 'exponent' } : { type: 'plain' };
  }
  const [first = ''] = format.replace(/"[^"]*"|\\.|\[[^\]]*\]|_./g, '').split(';');
  if (/^0{2,15}$/.test(first)) return { type: 'zeros', width: first.length };
  if (/e[+-]/i.test(first)) return { type: 'exponent' };
  return /[dmyhs]/i.test(first) && !/general/i.test(first) ? { type: 'date' } : { type: 'plain' };
}

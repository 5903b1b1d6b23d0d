// A workbook with what the usual writer leaves out: text struck through, in whole or in part, fills, comments, hidden
// rows, numbers and dates under a format. By hand after ECMA-376 part 1, 18.3, 18.4 and 18.8; comments after 18.7.
import { strToU8, zipSync } from 'fflate';

export interface Looks {
  /** Rows whose cells are all struck through. */
  struckRows?: number[];
  /** Cells whose text is struck through; with `words` only those of its text. */
  struck?: { at: string; words?: string }[];
  /** Colours as RRGGBB by row. */
  fills?: Record<number, string>;
  /** Colours as RRGGBB by cell. */
  cellFills?: Record<string, string>;
  hiddenRows?: number[];
  merges?: string[];
  comments?: Record<string, string>;
  /** Cells that hold a number, with its format; the text of the cell is the number as it is stored. */
  numbers?: Record<string, string>;
}

interface Part {
  name: string;
  cells: string[][];
  looks?: Looks | undefined;
}

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'xmlns="http://schemas.openxmlformats.org/package/2006/relationships"';

const escapeXml = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const letterOf = (column: number) => String.fromCharCode(65 + column);

/** Styles that the cells ask for, each once. */
class Styles {
  readonly #xfs = ['<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>'];
  readonly #fills = [
    '<fill><patternFill patternType="none"/></fill>',
    '<fill><patternFill patternType="gray125"/></fill>',
  ];
  readonly #formats: string[] = [];

  indexOf({ struck, fill, format }: { struck: boolean; fill: string | undefined; format: string | undefined }): number {
    const fillXml = `<fill><patternFill patternType="solid"><fgColor rgb="FF${fill}"/><bgColor indexed="64"/></patternFill></fill>`;
    const fillId = fill === undefined ? 0 : put(this.#fills, fillXml);
    const formatId = format === undefined || format === '' ? 0 : 164 + put(this.#formats, format);
    const xf = `<xf numFmtId="${formatId}" fontId="${struck ? 1 : 0}" fillId="${fillId}" borderId="0" applyNumberFormat="1" applyFont="1" applyFill="1"/>`;
    return struck || fillId > 0 || formatId > 0 ? put(this.#xfs, xf) : 0;
  }

  toXml(): string {
    const formats = this.#formats.map((code, i) => `<numFmt numFmtId="${164 + i}" formatCode="${escapeXml(code)}"/>`);
    const font = (extra: string) => `<font>${extra}<sz val="11"/><name val="Sans"/></font>`;
    return (
      `${HEAD}<styleSheet ${MAIN}>` +
      (formats.length > 0 ? `<numFmts count="${formats.length}">${formats.join('')}</numFmts>` : '') +
      `<fonts count="2">${font('')}${font('<strike/>')}</fonts>` +
      `<fills count="${this.#fills.length}">${this.#fills.join('')}</fills>` +
      '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
      '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>' +
      `<cellXfs count="${this.#xfs.length}">${this.#xfs.join('')}</cellXfs></styleSheet>`
    );
  }
}

function put(list: string[], item: string): number {
  const found = list.indexOf(item);
  return found >= 0 ? found : list.push(item) - 1;
}

function sheetToXml({ cells, looks = {} }: Part, styles: Styles): string {
  const rows = cells.map((texts, i) => {
    const row = i + 1;
    const xml = texts.map((text, column) => {
      const at = letterOf(column) + row;
      const whole = looks.struck?.some((one) => one.at === at && one.words === undefined);
      const style = styles.indexOf({
        struck: whole === true || looks.struckRows?.includes(row) === true,
        fill: looks.cellFills?.[at] ?? looks.fills?.[row],
        format: looks.numbers?.[at],
      });
      if (text === '') return style === 0 ? '' : `<c r="${at}" s="${style}"/>`;
      if (looks.numbers?.[at] !== undefined) return `<c r="${at}" s="${style}"><v>${text}</v></c>`;
      const words = looks.struck?.find((one) => one.at === at)?.words;
      return `<c r="${at}" s="${style}" t="inlineStr"><is>${words ? toRuns(text, words) : toText(text)}</is></c>`;
    });
    return `<row r="${row}"${looks.hiddenRows?.includes(row) ? ' hidden="1"' : ''}>${xml.join('')}</row>`;
  });
  const merges = (looks.merges ?? []).map((ref) => `<mergeCell ref="${ref}"/>`);
  const merged = merges.length > 0 ? `<mergeCells count="${merges.length}">${merges.join('')}</mergeCells>` : '';
  const legacy = looks.comments ? '<legacyDrawing r:id="rId2"/>' : '';
  return `${HEAD}<worksheet ${MAIN} xmlns:r="${OFFICE}"><sheetData>${rows.join('')}</sheetData>${merged}${legacy}</worksheet>`;
}

const toText = (text: string) => `<t xml:space="preserve">${escapeXml(text)}</t>`;

/** The text in runs, of which the one with these words is struck through. */
function toRuns(text: string, words: string): string {
  const from = text.indexOf(words);
  const parts: [string, boolean][] = [
    [text.slice(0, from), false],
    [words, true],
    [text.slice(from + words.length), false],
  ];
  return parts
    .filter(([part]) => part !== '')
    .map(([part, struck]) => `<r><rPr>${struck ? '<strike/>' : ''}<sz val="11"/></rPr>${toText(part)}</r>`)
    .join('');
}

function commentsToXml(comments: Record<string, string>): string {
  const list = Object.entries(comments).map(
    ([at, text]) => `<comment ref="${at}" authorId="0"><text><r>${toText(text)}</r></text></comment>`,
  );
  return `${HEAD}<comments ${MAIN}><authors><author></author></authors><commentList>${list.join('')}</commentList></comments>`;
}

function commentsToDrawing(comments: Record<string, string>): string {
  const shapes = Object.keys(comments).map((at, i) => {
    const [, letter = 'A', row = '1'] = /^([A-Z])(\d+)$/.exec(at) ?? [];
    const place = `<x:Row>${Number(row) - 1}</x:Row><x:Column>${letter.charCodeAt(0) - 65}</x:Column>`;
    return `<v:shape id="s${i}" type="#t" style="visibility:hidden"><x:ClientData ObjectType="Note">${place}</x:ClientData></v:shape>`;
  });
  return `<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shapetype id="t" coordsize="21600,21600" path="m,l,21600r21600,l21600,xe"/>${shapes.join('')}</xml>`;
}

const relation = (id: string, type: string, target: string) =>
  `<Relationship Id="${id}" Type="${OFFICE}/${type}" Target="${target}"/>`;
const relations = (list: string[]) => strToU8(`${HEAD}<Relationships ${PACKAGE}>${list.join('')}</Relationships>`);

export function toBook(sheets: readonly Part[]): Uint8Array {
  const styles = new Styles();
  const files: Record<string, Uint8Array> = {};
  const types: string[] = [];
  const type = (part: string, kind: string) =>
    types.push(
      `<Override PartName="/${part}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${kind}+xml"/>`,
    );
  sheets.forEach((sheet, i) => {
    const path = `xl/worksheets/sheet${i + 1}.xml`;
    files[path] = strToU8(sheetToXml(sheet, styles));
    type(path, 'worksheet');
    const comments = sheet.looks?.comments;
    if (!comments) return;
    files[`xl/comments${i + 1}.xml`] = strToU8(commentsToXml(comments));
    files[`xl/drawings/notes${i + 1}.vml`] = strToU8(commentsToDrawing(comments));
    type(`xl/comments${i + 1}.xml`, 'comments');
    files[`xl/worksheets/_rels/sheet${i + 1}.xml.rels`] = relations([
      relation('rId1', 'comments', `../comments${i + 1}.xml`),
      relation('rId2', 'vmlDrawing', `../drawings/notes${i + 1}.vml`),
    ]);
  });
  files['xl/styles.xml'] = strToU8(styles.toXml());
  type('xl/styles.xml', 'styles');
  type('xl/workbook.xml', 'sheet.main');
  const named = sheets.map(({ name }, i) => `<sheet name="${escapeXml(name)}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`);
  files['xl/workbook.xml'] = strToU8(
    `${HEAD}<workbook ${MAIN} xmlns:r="${OFFICE}"><sheets>${named.join('')}</sheets></workbook>`,
  );
  files['xl/_rels/workbook.xml.rels'] = relations([
    ...sheets.map((_, i) => relation(`rId${i + 1}`, 'worksheet', `worksheets/sheet${i + 1}.xml`)),
    relation('rIdStyles', 'styles', 'styles.xml'),
  ]);
  files['_rels/.rels'] = relations([relation('rId1', 'officeDocument', 'xl/workbook.xml')]);
  files['[Content_Types].xml'] = strToU8(
    `${HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Default Extension="vml" ContentType="application/vnd.openxmlformats-officedocument.vmlDrawing"/>${types.join('')}</Types>`,
  );
  return zipSync(files);
}

// What a workbook shows beside its texts: cells struck through, fills, comments. Nothing is judged here; what they may
// mean is for the core. ECMA-376 part 1, chapter 18; section numbers stand beside each element.
//
// Limits: Colours of a theme are told apart and not looked up. Conditional formats, and the look of a whole row or column
// whose cells are not written, are not read.
import type { SheetMark } from '../../core/schedule/rows/readTypes.ts';
import { TINT } from '../back/styles.ts';
import { CAPS } from '../sheetError.ts';
import { addressOf } from '../xlsxCells.ts';
import { unescapeText } from '../xlsxParts.ts';
import { attributeOf, scanXml } from '../xml.ts';
import { isOn } from './xlsxRuns.ts';

/** What a style shows beside a number's look. */
export interface StyleMarks {
  struck: boolean;
  /** Colour as RRGGBB, or the name that the workbook gives it; '' for none and for white. */
  fill: string;
}

/** By the index of a cell's style: cellXfs (18.8.10), whose xf (18.8.45) name a font and a fill. */
export function readStyleMarks(xml: string): StyleMarks[] {
  const struck: boolean[] = [];
  const fills: string[] = [];
  const marks: StyleMarks[] = [];
  // Differential formats (18.8.14) hold fonts and fills too, which are no cell's own.
  let list = '';
  let isSolid = false;
  scanXml(xml, {
    open(name, attributes) {
      if (/^(fonts|fills|cellXfs|dxfs|cellStyleXfs)$/.test(name)) list = name;
      else if (list === 'fonts' && name === 'font') struck.push(false);
      else if (list === 'fonts' && name === 'strike') struck[struck.length - 1] = isOn(attributes);
      else if (list === 'fills' && name === 'fill') fills.push('');
      else if (list === 'fills' && name === 'patternFill') isSolid = attributeOf(attributes, 'patternType') === 'solid';
      // Of a solid fill the foreground is the colour that is seen (18.8.32).
      else if (list === 'fills' && name === 'fgColor' && isSolid) fills[fills.length - 1] = toColour(attributes);
      else if (list === 'cellXfs' && name === 'xf') {
        const at = (key: string) => Number(attributeOf(attributes, key) ?? 0);
        marks.push({ struck: struck[at('fontId')] === true, fill: fills[at('fillId')] ?? '' });
      }
    },
    text: () => undefined,
    close(name) {
      if (name === list) list = '';
    },
  });
  return marks;
}

/** White, and what this app tints amended cells with. */
const NO_COLOURS = ['FFFFFF', TINT.slice(2)];

/** A colour as the workbook names it (18.8.19, CT_Color). */
function toColour(attributes: string): string {
  const rgb = /^(?:[0-9a-f]{2})?([0-9a-f]{6})$/i.exec(attributeOf(attributes, 'rgb') ?? '')?.[1];
  if (rgb) return NO_COLOURS.includes(rgb.toUpperCase()) ? '' : rgb.toUpperCase();
  const theme = attributeOf(attributes, 'theme');
  const indexed = attributeOf(attributes, 'indexed');
  const tint = Number(attributeOf(attributes, 'tint') ?? 0);
  // Theme colour 0 is the paper's.
  if (theme !== null && !(theme === '0' && tint === 0))
    return `theme ${theme}${tint === 0 ? '' : ` ${tint.toFixed(1)}`}`;
  // 9 is white, 64 and 65 are the system's own (18.8.27).
  return indexed !== null && !['1', '9', '64', '65'].includes(indexed) ? `colour ${indexed}` : '';
}

/** What is gathered while a sheet is read: cells of a row that look alike are one mark. */
export class MarkList {
  readonly all: SheetMark[] = [];
  readonly #last = new Map<SheetMark['type'], SheetMark>();

  add(type: SheetMark['type'], row: number, column: number, said = ''): void {
    if (row > CAPS.rows || column > CAPS.columns) return;
    const last = this.#last.get(type);
    if (last && last.row === row && last.to === column - 1 && last.said === said && type !== 'comment') {
      last.to = column;
      return;
    }
    const mark = { type, row, column, to: column, said };
    this.#last.set(type, mark);
    this.all.push(mark);
  }
}

/** Comments by cell (18.7.3), the runs of each joined. */
export function readComments(xml: string): { row: number; column: number; text: string }[] {
  const comments: { row: number; column: number; text: string }[] = [];
  let isText = false;
  scanXml(xml, {
    open(name, attributes) {
      if (name === 'comment') {
        const at = addressOf(attributeOf(attributes, 'ref') ?? '');
        comments.push({ row: at?.row ?? 0, column: at?.column ?? 0, text: '' });
      } else if (name === 't') isText = true;
    },
    text(text) {
      const last = comments.at(-1);
      if (isText && last) last.text += text;
    },
    close(name) {
      if (name === 't') isText = false;
    },
  });
  return comments.filter(({ row }) => row > 0).map((one) => ({ ...one, text: unescapeText(one.text).trim() }));
}

/** The part with a sheet's comments, as its relations name it (part 2, 9.3; part 1, 12.3.3); '' for none. */
export function commentsPart(relations: string): string {
  let part = '';
  if (relations === '') return part;
  scanXml(relations, {
    open(name, attributes) {
      const type = attributeOf(attributes, 'Type') ?? '';
      const target = attributeOf(attributes, 'Target') ?? '';
      if (name !== 'Relationship' || !/\/comments$/.test(type)) return;
      // Named from the folder of the sheets.
      part = target.startsWith('/') ? target.slice(1) : `xl/worksheets/${target}`.replace(/[^/]+\/\.\.\//, '');
    },
    text: () => undefined,
    close: () => undefined,
  });
  return part;
}

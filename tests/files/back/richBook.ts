// A workbook as a station keeps one: colours, widths, merges, comments, formulas, a filter, a conditional format, a
// table, hidden rows and columns, a picture. Its parts follow ECMA-376 part 1, chapter 18. Invented data.
import { strToU8, unzipSync, zipSync } from 'fflate';

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

const toXml = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
const relations = (...list: [string, string, string][]) =>
  `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${list
    .map(([id, type, target]) => `<Relationship Id="${id}" Type="${OFFICE}/${type}" Target="${target}"/>`)
    .join('')}</Relationships>`;

/** A picture that no reader looks into. */
const PIXEL = Uint8Array.from(
  atob('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='),
  (letter) => letter.charCodeAt(0),
);

/** The titles of its list, in row 2. */
export const TITLES = ['Cable No', 'From Unit', 'From Jack', 'To Unit', 'To Jack', 'Length', 'Label', 'Notes'];

export interface RichRow {
  number: string;
  from: [string, string];
  to: [string, string];
  length: number;
}

/**
 * Cables from row 3: the number is a number cell shown with four figures, the label a shared formula of the cells before
 * it, the notes merged over the first two rows. A second sheet counts the lengths.
 */
export function richBook(rows: readonly RichRow[]): Uint8Array<ArrayBuffer> {
  const last = rows.length + 2;
  const text = (ref: string, said: string, style: number) =>
    `<c r="${ref}" s="${style}" t="inlineStr"><is><t>${toXml(said)}</t></is></c>`;
  const titles = TITLES.map((title, i) => text(`${'ABCDEFGH'[i]}2`, title, 1)).join('');
  const body = rows.map(({ number, from, to, length }, i) => {
    const n = i + 3;
    const hidden = i === 1 ? ' hidden="1"' : '';
    const shared = i === 0 ? `<f t="shared" ref="G3:G${last}" si="0">A3&amp;" "&amp;$B3</f>` : '<f t="shared" si="0"/>';
    const cells = [
      `<c r="A${n}" s="2"><v>${Number(number)}</v></c>`,
      ...[from[0], from[1], to[0], to[1]].map((said, k) => text(`${'BCDE'[k]}${n}`, said, 3)),
      `<c r="F${n}" s="4"><v>${length}</v></c>`,
      `<c r="G${n}" s="0" t="str">${shared}<v>${Number(number)} ${toXml(from[0])}</v></c>`,
      i === 0 ? text(`H${n}`, 'behind the door', 5) : `<c r="H${n}" s="5"/>`,
    ];
    return `<row r="${n}" spans="1:8"${hidden} ht="18" customHeight="1">${cells.join('')}</row>`;
  });
  const sheet = `${HEAD}<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}"><dimension ref="A1:H${last}"/><sheetViews><sheetView workbookViewId="0"><pane ySplit="2" topLeftCell="A3" state="frozen"/></sheetView></sheetViews><sheetFormatPr defaultRowHeight="15"/><cols><col min="1" max="1" width="12" customWidth="1"/><col min="6" max="6" width="9" hidden="1" customWidth="1"/></cols><sheetData><row r="1">${text('A1', 'Old wing, rev C', 1)}</row><row r="2" spans="1:8">${titles}</row>${body.join('')}</sheetData><autoFilter ref="A2:H${last}"/><mergeCells count="2"><mergeCell ref="A1:H1"/><mergeCell ref="H3:H4"/></mergeCells><conditionalFormatting sqref="F3:F${last}"><cfRule type="cellIs" dxfId="0" priority="1" operator="greaterThan"><formula>50</formula></cfRule></conditionalFormatting><dataValidations count="1"><dataValidation type="list" sqref="D3:D${last}"><formula1>"SW1,SW2,CON1,CON2"</formula1></dataValidation></dataValidations><pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/><drawing r:id="rId3"/><legacyDrawing r:id="rId1"/></worksheet>`;
  const sums = `${HEAD}<worksheet xmlns="${MAIN}"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Metres</t></is></c><c r="B1"><f>SUM(Runs!F3:F${last})</f><v>${rows.reduce((sum, { length }) => sum + length, 0)}</v></c></row></sheetData></worksheet>`;
  const parts: Record<string, string | Uint8Array> = {
    '[Content_Types].xml': `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Default Extension="png" ContentType="image/png"/><Default Extension="vml" ContentType="application/vnd.openxmlformats-officedocument.vmlDrawing"/>${[
      ['xl/workbook.xml', 'spreadsheetml.sheet.main'],
      ['xl/worksheets/sheet1.xml', 'spreadsheetml.worksheet'],
      ['xl/worksheets/sheet2.xml', 'spreadsheetml.worksheet'],
      ['xl/styles.xml', 'spreadsheetml.styles'],
      ['xl/comments1.xml', 'spreadsheetml.comments'],
      ['xl/calcChain.xml', 'spreadsheetml.calcChain'],
      ['xl/drawings/drawing1.xml', 'drawing'],
    ]
      .map(
        ([part, type]) =>
          `<Override PartName="/${part}" ContentType="application/vnd.openxmlformats-officedocument.${type}+xml"/>`,
      )
      .join('')}</Types>`,
    '_rels/.rels': relations(['rId1', 'officeDocument', 'xl/workbook.xml']),
    'xl/workbook.xml': `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="Runs" sheetId="1" r:id="rId1"/><sheet name="Sums" sheetId="2" r:id="rId2"/></sheets><definedNames><definedName name="_xlnm._FilterDatabase" localSheetId="0" hidden="1">Runs!$A$2:$H$${last}</definedName><definedName name="_xlnm.Print_Titles" localSheetId="0">Runs!$2:$2</definedName></definedNames><calcPr calcId="191029"/></workbook>`,
    'xl/_rels/workbook.xml.rels': relations(
      ['rId1', 'worksheet', 'worksheets/sheet1.xml'],
      ['rId2', 'worksheet', 'worksheets/sheet2.xml'],
      ['rId3', 'styles', 'styles.xml'],
      ['rId4', 'calcChain', 'calcChain.xml'],
    ),
    'xl/styles.xml': `${HEAD}<styleSheet xmlns="${MAIN}"><numFmts count="2"><numFmt numFmtId="164" formatCode="0000"/><numFmt numFmtId="165" formatCode="0.0"/></numFmts><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="12"/><color rgb="FF1F3864"/><name val="Calibri"/></font></fonts><fills count="3"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill><fill><patternFill patternType="solid"><fgColor rgb="FFE2EFDA"/><bgColor indexed="64"/></patternFill></fill></fills><borders count="2"><border/><border><left style="thin"/><right style="thin"/><top style="thin"/><bottom style="thin"/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="6"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="2" borderId="1" xfId="0" applyFont="1" applyFill="1"/><xf numFmtId="164" fontId="0" fillId="0" borderId="1" xfId="0" applyNumberFormat="1"/><xf numFmtId="0" fontId="0" fillId="0" borderId="1" xfId="0" applyBorder="1"/><xf numFmtId="0" fontId="0" fillId="2" borderId="1" xfId="0" applyFill="1"/><xf numFmtId="0" fontId="0" fillId="0" borderId="1" xfId="0" applyAlignment="1"><alignment vertical="top" wrapText="1"/></xf></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles><dxfs count="1"><dxf><font><color rgb="FF9C0006"/></font></dxf></dxfs></styleSheet>`,
    'xl/worksheets/sheet1.xml': sheet,
    'xl/worksheets/sheet2.xml': sums,
    'xl/worksheets/_rels/sheet1.xml.rels': relations(
      ['rId1', 'vmlDrawing', '../drawings/vmlDrawing1.vml'],
      ['rId2', 'comments', '../comments1.xml'],
      ['rId3', 'drawing', '../drawings/drawing1.xml'],
    ),
    'xl/comments1.xml': `${HEAD}<comments xmlns="${MAIN}"><authors><author>Desk</author></authors><commentList><comment ref="D4" authorId="0"><text><r><t>moved in June</t></r></text></comment></commentList></comments>`,
    'xl/drawings/vmlDrawing1.vml':
      '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shape id="_x0000_s1025" type="#_x0000_t202" style="visibility:hidden"><x:ClientData ObjectType="Note"><x:Row>3</x:Row><x:Column>3</x:Column></x:ClientData></v:shape></xml>',
    'xl/drawings/drawing1.xml': `${HEAD}<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><xdr:oneCellAnchor><xdr:from><xdr:col>9</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>1</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:ext cx="190500" cy="190500"/><xdr:pic><xdr:nvPicPr><xdr:cNvPr id="2" name="Plan"/><xdr:cNvPicPr/></xdr:nvPicPr><xdr:blipFill><a:blip xmlns:r="${OFFICE}" r:embed="rId1"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill><xdr:spPr><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr></xdr:pic><xdr:clientData/></xdr:oneCellAnchor></xdr:wsDr>`,
    'xl/drawings/_rels/drawing1.xml.rels': relations(['rId1', 'image', '../media/image1.png']),
    'xl/media/image1.png': PIXEL,
    'xl/calcChain.xml': `${HEAD}<calcChain xmlns="${MAIN}">${rows.map((_, i) => `<c r="G${i + 3}" i="1"/>`).join('')}<c r="B1" i="2"/></calcChain>`,
  };
  return zipParts(parts);
}

export function zipParts(parts: Record<string, string | Uint8Array>): Uint8Array<ArrayBuffer> {
  const bytes = Object.entries(parts).map(([name, part]) => [name, typeof part === 'string' ? strToU8(part) : part]);
  return zipSync(Object.fromEntries(bytes), { mtime: '1980-01-01T00:00:00' }) as Uint8Array<ArrayBuffer>;
}

/** The parts of an archive as text, for comparing them. */
export function partsOf(bytes: Uint8Array): Map<string, string> {
  return new Map(Object.entries(unzipSync(bytes)).map(([name, part]) => [name, Buffer.from(part).toString('latin1')]));
}

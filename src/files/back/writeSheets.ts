// The plan's sheets as files: the files it was read from with the amended cells changed, where those are here and of the
// kind asked for; else new ones.
import type { Table } from '../../core/schedule/rows/readTypes.ts';
import type { PlanSheets, SheetOut } from '../../core/schedule/sheets/planSheets.ts';
import type { Kept, Spoiled } from '../../wire/planSheets.ts';
import type { Encoding } from '../encodings.ts';
import { tablesToXlsx, tableToCsv } from '../planSheet.ts';
import { fileToName } from '../sheet.ts';
import { isZip } from '../sheetError.ts';
import { amendCsv, spoiledCells } from './csv.ts';
import { amendWorkbook } from './workbook.ts';

/** A file that the plan was read from, with its tables in their order. */
export interface SourceFile {
  name: string;
  bytes: Uint8Array;
  tables: Table[];
  /** Of a text file, where a person chose it. */
  encoding?: Encoding | undefined;
}

interface MadeFile {
  name: string;
  mime: string;
  bytes: Uint8Array<ArrayBuffer>;
}

export interface WrittenSheets {
  files: MadeFile[];
  kept: Kept;
  spoiled: Spoiled;
}

type As = 'xlsx' | 'csv';

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
/** A workbook with programs in it keeps its ending, or it is not opened. */
const XLSM = 'application/vnd.ms-excel.sheet.macroEnabled.12';

/** @param source The files it was read from, in their order; null where they are not here. */
export async function writeSheets(
  { tables, form }: PlanSheets,
  source: readonly SourceFile[] | null,
  planName: string,
  as: As,
): Promise<WrittenSheets> {
  const kept = form === 'source' && source ? await amendFiles(source, tables, as) : ({ type: 'made' } as const);
  const files = 'files' in kept ? kept.files : await makeFiles(tables, planName, as);
  const spoiled = as === 'csv' ? spoiledCells(tables) : { n: 0, first: [] };
  return { files, kept: 'files' in kept ? { type: 'original' } : kept, spoiled };
}

async function makeFiles(tables: readonly SheetOut[], planName: string, as: As): Promise<MadeFile[]> {
  const name = planName.replace(/[^\p{L}\p{N}.-]+/gu, '-').replace(/^[-.]+|[-.]+$/g, '') || 'schedule';
  if (as === 'xlsx') return [{ name: `${name}.xlsx`, mime: XLSX, bytes: await tablesToXlsx(tables) }];
  return tables.map((table) => ({
    name: tables.length === 1 ? `${name}.csv` : `${name} ${table.name}.csv`,
    mime: 'text/csv',
    bytes: tableToCsv(table) as Uint8Array<ArrayBuffer>,
  }));
}

/** All of them or none: a schedule that is half in place would be half in two forms. */
async function amendFiles(
  source: readonly SourceFile[],
  out: readonly SheetOut[],
  as: As,
): Promise<{ files: MadeFile[] } | Exclude<Kept, { type: 'original' }>> {
  const files: MadeFile[] = [];
  let from = 0;
  for (const { name, bytes, tables, encoding } of source) {
    const own = out.slice(from, from + tables.length);
    from += tables.length;
    if (isZip(bytes) !== (as === 'xlsx')) return { type: 'made' };
    const amended =
      as === 'xlsx' ? await amendWorkbook(bytes, tables, own) : amendCsv(bytes, tables[0]!, own[0]!, encoding);
    if (amended.type === 'not-in-place') return amended;
    files.push({ ...amendedName(name, as), bytes: amended.bytes });
  }
  return from === out.length ? { files } : { type: 'not-in-place', why: 'sheets that do not match' };
}

/** `runs.xlsx` comes back as `runs amended.xlsx`, and once more under the same name. */
function amendedName(name: string, as: As): { name: string; mime: string } {
  const ending = /\.(xlsm|tsv|txt)$/i.exec(name)?.[1]?.toLowerCase() ?? as;
  const bare = fileToName(name).replace(/ amended$/, '');
  return { name: `${bare} amended.${ending}`, mime: as === 'csv' ? 'text/csv' : ending === 'xlsm' ? XLSM : XLSX };
}

// Measurements of files: reading a schedule of 25,000 rows as text and as a workbook, and a station's bundle with fifty photos.
import { createHash, randomFillSync } from 'node:crypto';
import writeWorkbook from 'write-excel-file/universal';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { readBundle, writeBundle } from '../../src/files/bundle.ts';
import { readCsv } from '../../src/files/csv.ts';
import { rowsToCsvBytes } from '../../src/files/csvOut.ts';
import { decodeText } from '../../src/files/encodings.ts';
import { readXlsx } from '../../src/files/xlsx.ts';
import { createFacility } from './benchFacility.ts';
import { against, measure, type Row } from './benchMeasure.ts';

const ROWS = 25_000;
const PHOTOS = 50;
const PHOTO_BYTES = 300_000;

export async function measureFiles(say: (text: string) => void): Promise<Row[]> {
  say('Measuring files …');
  return [...(await sheetRows()), ...(await bundleRows())];
}

async function sheetRows(): Promise<Row[]> {
  const { rows: cells } = createFacility(ROWS);
  const bytes = rowsToCsvBytes(cells);
  const size = `${ROWS} rows`;
  const json = JSON.stringify(cells);
  const parse = await measure(
    () => json,
    (text) => JSON.parse(text),
  );
  const csv = await measure(
    () => bytes,
    (given) => readCsv(given),
  );
  const split = await measure(
    () => bytes,
    (given) =>
      decodeText(given)
        .text.split('\n')
        .map((line) => line.split(',')),
  );
  const workbook = await writeWorkbook([{ sheet: 'Cables', data: cells }]).toBlob();
  const packed = new Uint8Array(await workbook.arrayBuffer());
  const book = await readXlsx(packed);
  if (book.type === 'sheet-error' || book.tables[0]?.rows.length !== cells.length)
    throw new Error('The workbook lost rows.');
  const xlsx = await measure(
    () => packed,
    (given) => readXlsx(given),
  );
  const read = readCsv(bytes);
  if (read.type === 'sheet-error' || read.rows.length !== cells.length) throw new Error('The CSV lost rows.');
  const tables = [{ name: 'Cables', rows: cells }];
  const plan = readTables(tables, { name: 'facility' });
  if (plan.type !== 'plan' || plan.plan.cables.length !== ROWS) throw new Error('The schedule lost cables.');
  const value = await measure(
    () => tables,
    (given) => readTables(given, { name: 'facility' }),
  );
  return [
    against({ name: 'CSV to rows', size, value: csv, unit: 'ms' }, 'peer', 'split at commas', split),
    against({ name: 'workbook to rows', size, value: xlsx, unit: 'ms' }, 'peer', 'CSV to rows', csv),
    against({ name: 'rows to a plan', size, value, unit: 'ms' }, 'peer', 'JSON.parse of the rows', parse),
  ];
}

async function bundleRows(): Promise<Row[]> {
  const hash = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
  const photos = Array.from({ length: PHOTOS }, () => {
    const bytes = randomFillSync(new Uint8Array(PHOTO_BYTES));
    // Begins as a JPEG does, so that it is stored and not squeezed once more.
    bytes.set([0xff, 0xd8]);
    return bytes;
  });
  const { events } = createFacility(1_000);
  const content = {
    station: 's',
    stationName: 'Facility',
    events: events.map((event) => JSON.stringify(event)),
    documents: new Map(photos.map((bytes) => [hash(bytes), bytes])),
  };
  const size = `${PHOTOS} photos of ${PHOTO_BYTES / 1000} kB`;
  const write = await measure(
    () => content,
    (given) => writeBundle(given),
  );
  const bundle = writeBundle(content);
  const read = await measure(
    () => bundle,
    (given) => readBundle(given, async (bytes) => hash(bytes)),
  );
  const back = await readBundle(bundle, async (bytes) => hash(bytes));
  if (back.type !== 'bundle' || back.damage.length > 0 || back.content.documents.size !== PHOTOS) {
    throw new Error('The bundle did not come back whole.');
  }
  const hashing = await measure(
    () => photos,
    (given) => given.map(hash),
  );
  return [
    against({ name: 'bundle written', size, value: write, unit: 'ms' }, 'peer', 'SHA-256 of the photos', hashing),
    against(
      { name: 'bundle read and checked', size, value: read, unit: 'ms' },
      'peer',
      'SHA-256 of the photos',
      hashing,
    ),
  ];
}

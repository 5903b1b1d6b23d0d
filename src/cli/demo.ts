// Writes the demo station to public/demo: the schedule as workbook and as CSV, what is really on its floor, and the list
// of planted differences. The same files on every run and every machine.
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import writeWorkbook from 'write-excel-file/universal';
import { readTables } from '../core/schedule/readTables.ts';
import type { Table } from '../core/schedule/rows/readTypes.ts';
import { rowsToCsv } from '../files/csvOut.ts';
import { DEMO_CABLES } from './demoCables.ts';
import { PLANTED, planToFloor } from './demoFloor.ts';
import { DEMO_NAME, DEMO_UNITS } from './demoStation.ts';

const CABLES_HEADER = [
  'Cable No',
  'From',
  'From Jack',
  'To',
  'To Jack',
  'Signal',
  'Circuit Name',
  'Cable Type',
  'Length',
  'Status',
  'Notes',
];
const UNITS_HEADER = [
  'Unit',
  'Room',
  'Rack',
  'U',
  'Height',
  'Jacks',
  'Layout',
  'Description',
  'Address',
  'Serial',
  'MAC',
];
const PLACES = ['Room', 'Rack', 'U', 'Unit', 'Jack'];
const CSV_HEADER = [
  'Cable No',
  ...PLACES.map((part) => `From ${part}`),
  ...PLACES.map((part) => `To ${part}`),
  ...CABLES_HEADER.slice(5),
];

export function demoTables(): Table[] {
  const cables = DEMO_CABLES.map((cable) => {
    const { number, from, to, signal, circuit, type, length, status, notes } = cable;
    return [number, from[0], from[1], to[0], to[1], signal, circuit, type, length, status, notes];
  });
  const units = DEMO_UNITS.map((u) => [
    u.unit,
    u.room,
    u.rack,
    u.u,
    u.height,
    u.jacks,
    u.layout,
    u.description,
    u.address,
    u.serial,
    u.mac,
  ]);
  return [
    { name: 'Cables', rows: [CABLES_HEADER, ...cables] },
    { name: 'Units', rows: [UNITS_HEADER, ...units] },
  ];
}

/** The cable list alone, which has to say by itself where each unit is. */
function demoCsvRows(): string[][] {
  const units = new Map(DEMO_UNITS.map((unit) => [unit.unit, unit]));
  const place = ([name, jack]: [string, string]) => {
    const unit = units.get(name);
    return [unit?.room ?? '', unit?.rack ?? '', unit?.u ?? '', name, jack];
  };
  const rows = DEMO_CABLES.map((cable) => [
    cable.number,
    ...place(cable.from),
    ...place(cable.to),
    cable.signal,
    cable.circuit,
    cable.type,
    cable.length,
    cable.status,
    cable.notes,
  ]);
  return [CSV_HEADER, ...rows];
}

/** Every cell a text cell, so that no number loses its zeros; archive dates and authorship are made the same always. */
async function tablesToXlsx(tables: readonly Table[]): Promise<Uint8Array> {
  const sheets = tables.map((table) => ({
    sheet: table.name,
    data: table.rows.map((row) => row.map((value) => (value === '' ? null : { value, type: String }))),
  }));
  const blob = await writeWorkbook(sheets).toBlob();
  const entries = unzipSync(new Uint8Array(await blob.arrayBuffer()));
  const fixed: Zippable = {};
  for (const name of Object.keys(entries).sort()) {
    const bytes = entries[name];
    if (!bytes) continue;
    const isXml = /\.(xml|rels)$/.test(name);
    fixed[name] = isXml
      ? strToU8(strFromU8(bytes).replace(/\d{4}-\d{2}-\d{2}T[\d:.]+Z/g, '2026-01-01T00:00:00Z'))
      : bytes;
  }
  return zipSync(fixed, { mtime: '2026-01-01T12:00:00', level: 6 });
}

/** File name to content of everything in public/demo. */
export async function demoFiles(): Promise<Map<string, Uint8Array | string>> {
  const tables = demoTables();
  const read = readTables(tables, { name: DEMO_NAME });
  if (read.type !== 'plan') throw new Error(`The demo schedule cannot be read: ${read.why}`);
  return new Map<string, Uint8Array | string>([
    ['schedule.xlsx', await tablesToXlsx(tables)],
    ['schedule.csv', rowsToCsv(demoCsvRows())],
    ['floor.csv', rowsToCsv(planToFloor(read.plan))],
    ['planted.json', `${JSON.stringify({ station: DEMO_NAME, planted: PLANTED }, null, 2)}\n`],
  ]);
}

/** @param argv The folder to write to, `public/demo` when it is not given. */
export async function main(argv: string[]): Promise<number> {
  const folder = argv[0] ?? join('public', 'demo');
  await mkdir(folder, { recursive: true });
  for (const [name, content] of await demoFiles()) {
    await writeFile(join(folder, name), content);
    console.log(join(folder, name));
  }
  return 0;
}

// One schedule in the encodings and with the delimiters that spreadsheets save, read to the same plan. Windows-1252:
// WHATWG Encoding Standard, index windows-1252. Byte order marks: Unicode 17.0, table 2-4 (from memory). Sheet invented.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/core/plan/model.ts';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { readSheetFile } from '../../src/files/sheet.ts';

const fixture = readFileSync(new URL('../fixtures/quillmere-run-list.csv', import.meta.url), 'utf8');
/** The run list with letters and signs that differ between the encodings. */
const text = fixture
  .replaceAll('guest player', 'invité – “joueur” 5 €')
  .replaceAll('STB CON32', 'STB CÖN32')
  .replaceAll('same tray as 1001', 'même chemin que 1001');

/** The code points of 0x80 to 0x9F that this sheet needs; all other characters below 0x100 are their own byte. */
const WESTERN = new Map([
  ['€', 0x80],
  ['“', 0x93],
  ['”', 0x94],
  ['–', 0x96],
]);

const wide = (given: string) => new Uint8Array(Buffer.from(given, 'utf16le'));
const swapped = (bytes: Uint8Array) => new Uint8Array(Buffer.from(bytes).swap16());

const ENCODINGS: [string, string, (given: string) => Uint8Array][] = [
  ['UTF-8', 'UTF-8', (given) => new TextEncoder().encode(given)],
  ['UTF-8 with a byte order mark', 'UTF-8', (given) => new TextEncoder().encode(`\uFEFF${given}`)],
  ['UTF-16LE', 'UTF-16LE', (given) => wide(`\uFEFF${given}`)],
  ['UTF-16BE', 'UTF-16BE', (given) => swapped(wide(`\uFEFF${given}`))],
  ['UTF-16LE whose mark was lost', 'UTF-16LE', wide],
  ['UTF-16BE whose mark was lost', 'UTF-16BE', (given) => swapped(wide(given))],
  [
    'Windows-1252',
    'Windows-1252',
    (given) => new Uint8Array([...given].map((sign) => WESTERN.get(sign) ?? sign.charCodeAt(0))),
  ],
];
const DELIMITERS = [',', ';', '\t', '|'];
const CASES = ENCODINGS.flatMap(([name, found, encode]) =>
  DELIMITERS.map((delimiter) => ({ name: `${name}, ${JSON.stringify(delimiter)}`, found, encode, delimiter })),
);

async function read(bytes: Uint8Array): Promise<{ plan: Plan; encoding?: string; delimiter?: string }> {
  const sheet = await readSheetFile(bytes, 'list.csv');
  if (sheet.type !== 'tables') throw new Error(sheet.error.what);
  const result = readTables(sheet.tables, { name: 'list' });
  if (result.type !== 'plan') throw new Error(result.why);
  return { plan: result.plan, ...sheet.text };
}

describe('one schedule, however it was saved', () => {
  it.each(CASES)('$name', async ({ found, encode, delimiter }) => {
    // A comma in a note would have to be quoted; the run list is written by hand, so it is a full stop there.
    const plain = text.replaceAll(',', '.');
    const given = await read(encode(plain.replaceAll(';', delimiter)));
    const same = await read(new TextEncoder().encode(plain));
    expect(given.plan).toEqual(same.plan);
    expect(given.plan.cables).toHaveLength(36);
    expect(given.plan.cables.find(({ label }) => label === '3005')?.notes).toBe('invité – “joueur” 5 €. summing tail');
    expect(given.plan.units.some(({ label }) => label === 'CÖN32')).toBe(true);
    expect({ encoding: given.encoding, delimiter: given.delimiter }).toEqual({ encoding: found, delimiter });
  });

  it('takes the delimiter that the first line names, and keeps the numbers of the rows', async () => {
    const { plan } = await read(new TextEncoder().encode(`sep=;\r\n${text}`));
    expect(plan.cables).toHaveLength(36);
    expect(plan.cables[0]?.origin).toEqual({ sheet: 'list', row: 3 });
  });
});

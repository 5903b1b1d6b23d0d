// Every file that the app gives out, of a small and of a large plan, behind the headers that the server sends: each is
// made to its end and holds what it says. Rows invented.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readBundle } from '../../src/files/bundle.ts';
import { readSheetFile } from '../../src/files/sheet.ts';
import { onePhone } from './onePhone.ts';

const LONG = 120_000;

const HEADER = 'Cable No,From Unit,From Jack,To Unit,To Jack,Signal,Notes';
const toRow = (i: number) => {
  const [unit, jack] = [Math.floor(i / 24) + 1, (i % 24) + 1];
  return `${100_000 + i},FRM${unit},OUT ${jack},PNL${unit},J${jack},line,row ${i}`;
};

describe.each([5, 25_000])('of %i rows', (rows) => {
  const phone = onePhone(`exports-${rows}`);

  async function download(press: () => Promise<unknown>): Promise<{ name: string; bytes: Buffer }> {
    const [file] = await Promise.all([phone.page.waitForEvent('download'), press()]);
    return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
  }

  async function makeSheet(as: 'XLSX' | 'CSV'): Promise<string[][]> {
    await phone.page.goto(`${phone.origin}/plan`);
    const part = phone.page.getByRole('region', { name: 'The schedule as a sheet' });
    await part.getByRole('button', { name: `Make ${as}` }).click();
    await part.getByText('In the columns of its own sheet').waitFor({ timeout: 90_000 });
    const { name, bytes } = await download(() => part.getByRole('button', { name: /Share or save it/ }).click());
    const read = await readSheetFile(new Uint8Array(bytes), name);
    if (read.type !== 'tables') throw new Error(JSON.stringify(read));
    expect(read.tables).toHaveLength(1);
    return read.tables[0].rows;
  }

  it('is a plan that is walked', { timeout: LONG }, async () => {
    const { page, press } = phone;
    await page.goto(phone.origin);
    await press(/Import a schedule/);
    const text = [HEADER, ...Array.from({ length: rows }, (_, i) => toRow(i))].join('\n');
    const file = { name: 'large.csv', mimeType: 'text/csv', buffer: Buffer.from(text) };
    await page.locator('input[type=file]').first().setInputFiles(file);
    await page.getByLabel('Name of the station').fill('Fennigmoor');
    await press(/Use as the plan/);
    await page
      .getByRole('button', { name: /Begin an audit/ })
      .first()
      .waitFor();
    await phone.begin();
  });

  it.each(['XLSX', 'CSV'] as const)('gives the schedule as %s', { timeout: LONG }, async (as) => {
    const made = await makeSheet(as);
    expect(made).toHaveLength(rows + 1);
    expect(made[0]).toEqual(HEADER.split(','));
    expect(made[rows]).toEqual(toRow(rows - 1).split(','));
  });

  it('gives the report as HTML and CSV', { timeout: LONG }, async () => {
    const { page } = phone;
    await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
    await page.getByRole('button', { name: /Make files/ }).click();
    await page.getByText('Both files are ready').waitFor();
    const html = await download(() => page.getByRole('button', { name: /HTML/ }).click());
    expect(html.name).toMatch(/\.html$/);
    expect(html.bytes.toString()).toContain('Fennigmoor');
    expect(html.bytes.toString()).toMatch(/<\/html>\s*$/);
    const csv = await download(() => page.getByRole('button', { name: /CSV/ }).click());
    expect(csv.name).toMatch(/\.csv$/);
    expect(csv.bytes.length).toBeGreaterThan(20);
  });

  it('gives the whole station as a file', { timeout: LONG }, async () => {
    const { page } = phone;
    await page.goto(`${phone.origin}/sync`);
    await page.getByRole('button', { name: 'Make the file' }).click();
    const save = page.getByRole('button', { name: /^(?:Share or save it|Save it)$/ });
    await save.waitFor();
    const { bytes } = await download(() => save.click());
    const digest = async (given: Uint8Array) =>
      Buffer.from(await crypto.subtle.digest('SHA-256', given.slice())).toString('hex');
    const read = await readBundle(new Uint8Array(bytes), digest);
    if (read.type !== 'bundle') throw new Error(read.type);
    const kinds = read.content.events.map((event) => (JSON.parse(event) as { kind: string }).kind);
    expect(kinds).toEqual(['station-named', 'plan-adopted', 'audit-started']);
    expect(read.content.documents.size).toBe(2);
  });
});

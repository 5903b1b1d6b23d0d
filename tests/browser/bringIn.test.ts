// Bringing a sheet in by one thumb: columns set by hand and known again, guesses agreed to and overruled, questions
// answered, kept through a reload, cancelled at once. The Quillmere list and the odd one are invented.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rowsToCsv } from '../../src/files/csvOut.ts';
import { tablesToXlsx } from '../../src/files/planSheet.ts';
import { pictures, ROOT } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('bring-in');
const QUILLMERE = readFileSync(join(ROOT, 'tests', 'fixtures', 'quillmere-run-list.csv'));
/** Neither a title nor a cell of it means anything to the reader. */
const ODD = `Wiring of the old wing;;;;
Which;Where it comes from;Hole;Where it goes;Hole there
red;desk;upper;shelf;left
blue;desk;lower;tower;right
`;
const ODD_NEWER = `Wiring of the old wing, second edition;;;;
;;;;
WHICH;Where it comes from;Hole;Where it goes;hole there
red;desk;upper;shelf;left
blue;desk;lower;tower;right
green;desk;third;tower;left
`;

const main = () => phone.page.locator('main').innerText();
const foot = () => phone.page.locator('.screen-foot').innerText();
const soon = (ask: () => Promise<unknown>) => expect.poll(ask);
const fold = (words: string | RegExp) =>
  phone.page.locator('details', { has: phone.page.locator('summary', { hasText: words }) });
const openGuesses = async () => Number(/(\d+) open guess/.exec(await foot())?.[1] ?? -1);

async function choose(name: string, text: string | Buffer): Promise<void> {
  await phone.page.goto(`${phone.origin}/bring-in`);
  const file = { name, mimeType: 'text/csv', buffer: Buffer.from(text) };
  await phone.page.locator('input[type=file]').first().setInputFiles(file);
}

describe('columns', () => {
  it('are set by hand where no title is known, and the sheet is read with them', async () => {
    await choose('odd.csv', ODD);
    await soon(main).toContain('names the columns of a schedule');
    await soon(main).toContain('Say below what the sheet lists');
    await phone.page.getByLabel('Header row').selectOption('2');
    await soon(() => phone.page.getByLabel('Hole there means').count()).toBe(1);
    const set = async (title: string, meaning: string) => {
      await phone.page.getByLabel(`${title} means`, { exact: true }).selectOption({ label: meaning });
      await soon(() =>
        phone.page.getByLabel(`${title} means`, { exact: true }).locator('option:checked').innerText(),
      ).toBe(meaning);
      await soon(() => phone.page.getByLabel(`${title} means`, { exact: true }).isEnabled()).toBe(true);
    };
    await set('Which', 'Cable number');
    await set('Where it comes from', 'From unit');
    await set('Hole', 'From jack');
    await set('Where it goes', 'To unit');
    await set('Hole there', 'To jack');
    await soon(main).toContain('cable red: desk upper to shelf left');
    await soon(foot).toContain('2 cables');
    await pictures(phone.page, 'bring-in-columns');
  });

  it('are known again on a newer sheet with the same header, which says so, and are forgotten when told', async () => {
    await choose('odd-newer.csv', ODD_NEWER);
    await soon(foot).toContain('3 cables');
    await fold(/^odd-newer: cables, 5 of 5 columns read/)
      .locator('summary')
      .click();
    await soon(main).toContain('Read with the columns chosen on');
    await phone.press('Forget these columns');
    await soon(main).toContain('names the columns of a schedule');
    await choose('odd-newer.csv', ODD_NEWER);
    await soon(main).toContain('names the columns of a schedule');
  });
});

describe('the Quillmere list', () => {
  it('shows every guess as open, by kind', async () => {
    await choose('quillmere-run-list.csv', QUILLMERE);
    await soon(foot).toContain('36 cables');
    await soon(openGuesses).toBeGreaterThan(20);
    const heads = await phone.page.locator('main summary').allInnerTexts();
    const sum = heads.flatMap((head) => /^(?!.*:.*columns)(?!Record|On-air|Service)(.+): (\d+)$/.exec(head)?.[2] ?? []);
    expect(sum.reduce((all, n) => all + Number(n), 0)).toBe(await openGuesses());
    await pictures(phone.page, 'bring-in-quillmere');
  });

  it('lets a guess be agreed to, alone and by kind, and opened again', async () => {
    const before = await openGuesses();
    const kind = fold(/^Ditto marks/);
    await kind.locator('summary').click();
    const n = Number(/: (\d+)$/.exec(await kind.locator('summary').innerText())?.[1]);
    expect(n).toBeGreaterThan(3);
    await kind.getByRole('button', { name: 'Right', exact: true }).first().click();
    await soon(openGuesses).toBe(before - 1);
    await kind.scrollIntoViewIfNeeded();
    await pictures(phone.page, 'bring-in-guesses');
    await kind.getByRole('button', { name: `All ${n - 1} are right` }).click();
    await soon(openGuesses).toBe(before - n);
    await soon(() => kind.count()).toBe(0);
    await fold(/^Agreed/)
      .locator('summary')
      .click();
    await phone.press('Reopen');
    await soon(openGuesses).toBe(before);
    await kind.locator('summary').click();
    await kind.getByRole('button', { name: `All ${n} are right` }).click();
    await soon(openGuesses).toBe(before - n);
  });

  it('lets a guess be overruled: two cables in one cell are one when the cell is taken as it stands', async () => {
    const kind = fold(/^Several cables in one cell/);
    await kind.locator('summary').click();
    const entry = kind.locator('.desk-entry', { hasText: '2008-2009' });
    await entry.getByRole('button', { name: 'Correct it' }).click();
    const dialog = phone.page.getByRole('dialog');
    await soon(() => dialog.innerText()).toContain('It was read as: 2 cables');
    await soon(() => dialog.getByLabel('What it should say').inputValue()).toBe('2008-2009');
    await pictures(phone.page, 'bring-in-settle');
    await dialog.getByRole('button', { name: /As written/ }).click();
    await soon(foot).toContain('35 cables');
    await soon(main).toContain('Corrected: 1 cell');
  });

  it('lets a question be answered by writing the cell anew, and the answer be taken back', async () => {
    const question = () => phone.page.locator('.desk-group', { hasText: 'rear?' });
    await question().getByRole('button', { name: 'Answer' }).click();
    const dialog = phone.page.getByRole('dialog');
    await soon(() => dialog.getByLabel('What it should say').inputValue()).toBe('rear?');
    await dialog.getByLabel('What it should say').fill('J30');
    await dialog.getByRole('button', { name: /Apply/ }).click();
    await soon(main).toContain('Corrected: 2 cells');
    await soon(() => question().getByRole('button', { name: 'Answer' }).count()).toBe(0);
    await phone.page.locator('.desk-entry', { hasText: 'J30' }).getByRole('button', { name: 'Undo' }).click();
    await soon(() => question().getByRole('button', { name: 'Answer' }).count()).toBe(1);
    await soon(main).toContain('Corrected: 1 cell');
  });

  it('lets a word that is said in many rows be read otherwise in all of them', async () => {
    const kind = fold(/^Signal words/);
    await kind.locator('summary').click();
    await kind.locator('.desk-entry', { hasText: 'Ana mono' }).getByRole('button', { name: 'Correct it' }).click();
    const dialog = phone.page.getByRole('dialog');
    await soon(() => dialog.getByRole('checkbox').isChecked()).toBe(true);
    await soon(() => dialog.innerText()).toContain('All 2 cells with this text in this column');
    await dialog.getByLabel('What it should say').fill('AES');
    await dialog.getByRole('button', { name: /Apply/ }).click();
    await soon(main).toContain('Corrected: 2 cells');
    await soon(main).toMatch(/AES\s+Ana mono wherever column 6/);
  });

  it('keeps what was said through a reload: the file is chosen again, and goes on where it was left', async () => {
    const before = await openGuesses();
    await phone.page.reload();
    await soon(main).toContain('You were working on quillmere-run-list.csv.');
    await choose('quillmere-run-list.csv', QUILLMERE);
    await soon(foot).toContain('35 cables');
    await soon(main).toContain('for this file are filled in again');
    await soon(openGuesses).toBe(before);
  });

  it('is taken with open guesses, whose number is said, and nothing is left to settle then', async () => {
    await soon(foot).toMatch(/35 cables, \d+ open guesses/);
    await phone.press(/Use as the plan/);
    await phone.page
      .getByRole('button', { name: /Begin an audit/ })
      .first()
      .waitFor();
    await soon(() => phone.page.locator('body').innerText()).toContain('35 cables');
    await phone.page.goto(`${phone.origin}/bring-in`);
    await soon(main).toContain('Choose files');
    await phone.settled();
    expect(await main()).not.toContain('You were working on');
  });
});

describe('a sheet with two lists', () => {
  const BOTH = `Old wing, rev B;;;;;
Cable No;From Unit;From Jack;To Unit;To Jack;Notes
1001;SW1;P01;CON1;NET;
1002;SW1;P02;CON2;NET;new

Equipment;;;;;
Rack;U;Equipment;Description;Address;Key
R1;40;SW1;Switch;192.0.2.2;left
R2;10;CON1;Desk;;
`;

  it('shows both with their columns and first rows, and each is said otherwise on its own', async () => {
    await choose('wing.csv', BOTH);
    await soon(foot).toContain('2 cables');
    await soon(main).toContain('list of units, header in row 7, 2 rows');
    await soon(main).toContain('list of cables, header in row 2');
    await soon(main).toMatch(/First rows of wing, header in row 7/i);
    await soon(main).toContain('unit SW1: rack R1 U40');
    const units = fold(/^wing rows 6 to 9: units, 5 of 6 columns read/);
    await units.locator('summary').click();
    await soon(() => units.getByLabel('Address means', { exact: true }).count()).toBe(1);
    await units.scrollIntoViewIfNeeded();
    await pictures(phone.page, 'bring-in-two-lists');
    await units.getByLabel('wing rows 6 to 9 is a list of').selectOption({ label: 'Not a list' });
    await soon(main).toContain('wing from row 6');
    await soon(foot).toContain('2 cables');
    await fold(/^wing rows 6 to 9: not a list/)
      .getByRole('button', { name: 'Forget these columns' })
      .click();
    await soon(main).toContain('list of units, header in row 7, 2 rows');
  });
});

describe('a long sheet', () => {
  const HEAD = ['Cable', 'From', 'From Jack', 'To', 'To Jack', 'Signal'];
  const rows = Array.from({ length: 25_000 }, (_, i) =>
    [10_000 + i, `SW${i % 400}`, `P${i}`, `CON${i % 700}`, `N${i}`, 'Enet'].map(String),
  );

  /** Chooses the file, waits until the page says so of the progress, however briefly, and cancels. */
  async function cancelAt(name: string, buffer: Buffer, words: RegExp): Promise<void> {
    await phone.page.goto(`${phone.origin}/bring-in`);
    await phone.page.evaluate(() => {
      const said: string[] = [];
      Object.assign(window, { __said: said });
      new MutationObserver(() => {
        const now = document.querySelector('main [role=status]')?.textContent ?? '';
        if (now !== said.at(-1)) said.push(now);
      }).observe(document.body, { subtree: true, childList: true, characterData: true });
    });
    const file = { name, mimeType: 'application/octet-stream', buffer };
    await phone.page.locator('input[type=file]').first().setInputFiles(file);
    const said = () => phone.page.evaluate(() => (window as unknown as { __said: string[] }).__said.join('\n'));
    await soon(said).toMatch(words);
    const readers = () => phone.page.workers().filter((one) => /sheet\.worker/.test(one.url())).length;
    expect(readers()).toBe(1);
    await phone.page.getByRole('button', { name: /Cancel/ }).click();
    await soon(main).toContain('Reading was cancelled.');
    await soon(main).toContain('Nothing was changed.');
    // The reader has ended with it, and reads on for nobody.
    await soon(async () => readers()).toBe(0);
  }

  it('says how many rows are read, and is cancelled at once', async () => {
    await cancelAt('long.csv', Buffer.from(rowsToCsv([HEAD, ...rows])), /Row [\d,]+ of 25,001\./);
    await phone.page.goto(`${phone.origin}/plan`);
    await soon(() => phone.page.locator('body').innerText()).toContain('35');
  });

  it('says the rows of a workbook while its parts are read, and is cancelled there too', async () => {
    const wide = rows.map((row) => [...row, ...Array.from({ length: 6 }, (_, i) => `note ${i} of cable ${row[0]}`)]);
    const book = await tablesToXlsx([{ name: 'Long', rows: [HEAD, ...wide] }]);
    await cancelAt('long.xlsx', Buffer.from(book), /Opening the file: row [\d,]+\./);
  });
});

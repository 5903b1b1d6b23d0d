// A newer sheet over the plan in force: what it changes is shown before it is taken, what was seen stays with its cable
// through another number, and a running walk stays on its own plan. Invented data.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { picture, pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('revisions');

const HEADER = 'Cable No;From Rack;From Unit;From Jack;To Rack;To Unit;To Jack;Circuit;Notes';
const OLD = [
  '1001;R1;SW1;P01;R2;CON1;NET;Desk A;',
  '1002;R1;SW1;P02;R2;CON2;NET;Desk B;',
  '1003;R1;SW1;P03;R2;CON3;NET;Guest;',
  '1004;R1;SW1;P04;R2;CON4;NET;;behind the door',
];
const NEWER = [
  '1001;R1;SW1;P01;R2;CON1;NET;Desk A;',
  '2002;R1;SW1;P02;R2;CON2;NET;Desk B;',
  '1003;R1;SW1;P09;R2;CON3;NET;Guest;',
  '1007;R1;SW1;P07;R2;CON7;NET;Tally;',
];

const sheet = (rows: string[], name = 'run list.csv') => ({
  name,
  mimeType: 'text/csv',
  buffer: Buffer.from([HEADER, ...rows].join('\r\n')),
});

async function choose(rows: string[], name?: string): Promise<void> {
  await chooseFiles([sheet(rows, name)]);
}

async function chooseFiles(files: ReturnType<typeof sheet>[]): Promise<void> {
  await phone.page.goto(`${phone.origin}/bring-in`);
  await phone.page.locator('input[type=file]').first().setInputFiles(files);
  await phone.page.getByRole('button', { name: /Use as the plan/ }).waitFor();
}

const list = (name: string, ...rows: string[]) => ({
  name: `${name}.csv`,
  mimeType: 'text/csv',
  buffer: Buffer.from(rows.join('\r\n')),
});

it('takes no plan whose sheet finds no room, and takes it when there is room again', async () => {
  // The database refuses as it does on a full disk; store.test.ts fills a real one.
  await phone.context.addInitScript(() => {
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...given) {
      if (this.name === 'documents' && document.documentElement.dataset.full === 'yes') {
        this.transaction.abort();
        throw new DOMException('no room', 'QuotaExceededError');
      }
      return put.apply(this, given);
    };
  });
  await choose(OLD, 'run list A.csv');
  await phone.page.getByLabel('Name of the station').fill('Quillmere');
  await phone.page.evaluate(() => {
    document.documentElement.dataset.full = 'yes';
  });
  await phone.press(/Use as the plan/);
  await phone.page.getByText('The plan could not be saved.').waitFor();
  expect(await phone.page.locator('.error-box').innerText()).toMatch(/Free some space/);
  expect(phone.page.url()).toContain('/bring-in');
});

it('shows no changes where no plan is in force', async () => {
  await choose(OLD, 'run list A.csv');
  expect(await phone.page.getByText('What changes against the plan in force').count()).toBe(0);
  await phone.page.getByLabel('Name of the station').fill('Quillmere');
  await phone.press(/Use as the plan/);
  await phone.page.waitForURL(`${phone.origin}/`);
  await phone.page.getByText('4 cables').first().waitFor();
});

it('says that the same sheet changes nothing', async () => {
  await choose([...OLD].reverse(), 'run list A.csv');
  await phone.page.getByText('Nothing changes: it says the same as the plan in force.').waitFor();
});

it('shows what a newer sheet changes, each list behind its count', async () => {
  await phone.begin();
  await choose(NEWER, 'run list B.csv');
  const part = phone.page.getByRole('region', { name: 'What changes' });
  await part.getByText('4 cables before, 4 now; 1 unchanged.').waitFor();
  for (const title of ['Cables added: 1', 'Cables removed: 1', 'Cables moved: 1', 'Cables with another number: 1']) {
    await part.getByText(title, { exact: true }).click();
  }
  await expect.poll(() => part.innerText()).toContain('1003 from end: SW1 P09, was SW1 P03');
  await expect.poll(() => part.innerText()).toContain('2002 was 1002; SW1 P02 to CON2 NET');
  const toTop = () => part.evaluate((element) => element.scrollIntoView());
  await pictures(phone.page, 'revision-preview', toTop);
});

it('takes it as a revision: the renumbered cable keeps its id, the walk its plan', async () => {
  await phone.press(/Use as the plan/);
  await phone.page.waitForURL(`${phone.origin}/`);
  await phone.page.goto(`${phone.origin}/cable/1002`);
  await expect.poll(() => phone.page.locator('.plate').innerText()).toContain('2002');
  await phone.page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=SW1%2FP02`);
  await phone.page.getByRole('button', { name: /reads 1002/i }).waitFor();
});

const atReport = () => phone.page.goto(`${phone.origin}/audit/${phone.audit}/report`);
const planPart = () => phone.page.getByRole('region', { name: 'The plan of this walk' });

it('moves a running walk only after it showed which results change', async () => {
  // The floor is as the newer sheet has it: 2002 stands where 1002 is planned.
  await phone.at('SW1/P02');
  await phone.page.locator('.thumb').getByRole('button', { name: /^Type/ }).first().click();
  await phone.page.getByRole('dialog').getByRole('textbox').fill('2002');
  await phone.page.keyboard.press('Enter');
  await expect.poll(() => phone.page.locator('.verdict').innerText()).toContain('2002');
  await atReport();
  await planPart()
    .getByText(/compared with run list A/)
    .waitFor();
  await planPart()
    .getByRole('button', { name: /Move it to run list B/ })
    .click();
  const dialog = phone.page.getByRole('dialog');
  await dialog.getByText('Every entry stays; these results change.').waitFor();
  await dialog.getByText('Was: differs; becomes: one end seen: 1').click();
  await dialog.getByText('Cable not in the plan: 1').click();
  await expect.poll(() => dialog.innerText()).toContain('SW1 P02: 2002 is not in the plan.');
  await pictures(phone.page, 'move-walk');
  await phone.page.keyboard.press('Escape');
  await planPart()
    .getByText(/compared with run list A/)
    .waitFor();
  await planPart()
    .getByRole('button', { name: /Move it to run list B/ })
    .click();
  await dialog.getByRole('button', { name: /Move it$/ }).click();
  await planPart()
    .getByText(/compared with run list B/)
    .waitFor();
  await planPart().scrollIntoViewIfNeeded();
  await picture(phone.page, 'moved-walk-390-light');
  await expect
    .poll(() => phone.page.locator('main, body').first().innerText())
    .toContain('Moved to run list B, by I. Halloran');
  await phone.page.goto(`${phone.origin}/audit/${phone.audit}/walk?at=SW1%2FP02`);
  await phone.page.getByRole('button', { name: /reads 2002/i }).waitFor();
});

it('stands in with the plan before while the other one is not on the phone, and says so', async () => {
  await phone.page.evaluate(async () => {
    for (const { name } of await indexedDB.databases()) {
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const open = indexedDB.open(name ?? '');
        open.onsuccess = () => resolve(open.result);
        open.onerror = () => reject(open.error);
      });
      if (db.objectStoreNames.contains('documentHeads')) {
        await new Promise<void>((resolve, reject) => {
          const change = db.transaction(['documentHeads'], 'readwrite');
          const heads = change.objectStore('documentHeads').getAll();
          heads.onsuccess = () => {
            // The plan adopted last.
            const last = heads.result.sort((a, b) => b.at - a.at)[0];
            change.objectStore('documentHeads').delete(last.sha);
          };
          change.oncomplete = () => resolve();
          change.onerror = () => reject(change.error);
        });
      }
      db.close();
    }
  });
  await atReport();
  await planPart()
    .getByText(/It was moved to run list B .* has not arrived on this phone/)
    .waitFor();
  expect(await planPart().innerText()).toContain('compared with run list A');
  await picture(phone.page, 'moved-walk-awaited-390-light');
  await choose(OLD, 'run list A.csv');
  await phone.page.getByText(/has not arrived on this phone, so nothing can be compared/).waitFor();
  // The very sheet makes the very plan again.
  await choose(NEWER, 'run list B.csv');
});

it('gives the schedule back as a sheet, which brought in again changes nothing', async () => {
  await choose(NEWER, 'run list B.csv');
  await phone.press(/Use as the plan/);
  await phone.page.waitForURL(`${phone.origin}/`);
  const part = phone.page.getByRole('region', { name: 'The schedule as a sheet' });
  for (const as of ['XLSX', 'CSV'] as const) {
    await phone.page.goto(`${phone.origin}/plan`);
    await part.getByRole('button', { name: `Make ${as}` }).click();
    await part.getByText(/Ready: tap again to share or save it/).waitFor();
    await part.scrollIntoViewIfNeeded();
    await picture(phone.page, `plan-sheet-${as}-390-light`);
    const files: { name: string; mimeType: string; buffer: Buffer }[] = [];
    const rows = part.getByRole('button', { name: /Share or save it/ });
    for (let i = 0; i < (await rows.count()); i += 1) {
      const [download] = await Promise.all([phone.page.waitForEvent('download'), rows.nth(i).click()]);
      const buffer = readFileSync(await download.path());
      files.push({ name: download.suggestedFilename(), mimeType: '', buffer });
    }
    await phone.page.goto(`${phone.origin}/bring-in`);
    await phone.page.locator('input[type=file]').first().setInputFiles(files);
    await phone.page.getByText('Nothing changes: it says the same as the plan in force.').waitFor();
  }
});

it('does not take a sheet upon a plan that is no longer in force', async () => {
  await choose(OLD, 'run list A.csv');
  await phone.page.getByText('What changes against the plan in force').waitFor();
  const other = await phone.context.newPage();
  await other.goto(`${phone.origin}/bring-in`);
  await other
    .locator('input[type=file]')
    .first()
    .setInputFiles(sheet(NEWER.slice(0, 2), 'run list C.csv'));
  await other.getByRole('button', { name: /Use as the plan/ }).click();
  await other.waitForURL(`${phone.origin}/`);
  await other.close();
  await phone.page.getByText('Another plan has come into force since this sheet was read.').waitFor();
  await phone.press(/Use as the plan/);
  await phone.settled();
  expect(phone.page.url()).toContain('/bring-in');
  await phone.page.goto(`${phone.origin}/plan`);
  await expect.poll(() => phone.page.locator('.plate').innerText()).toContain('run list C');
});

it('shows circuits, wires, notes, normals, sources and channels that change', async () => {
  const CABLES = [
    '2006;R1;CONS1;OUT 1;R2;STL1;IN A;PGM 1;',
    '2007;R1;CONS1;OUT 2;R2;STL1;IN B;;',
    '2050;R1;PB1;3;R2;BLK4;3;Tally;',
  ];
  const files = (to: 'A' | 'B') => [
    sheet(CABLES, 'run list.csv'),
    list(
      'circuits',
      'Circuit;Main or standby;Carrier no;Hops',
      `PGM 1;main;${to === 'A' ? 'K-2201' : 'K-2209'};2006`,
      `PGM 1;standby;;${to === 'A' ? '2007' : '2007, carrier line'}`,
      ...(to === 'A' ? ['Talk;;;2050'] : ['Return 1;;K-77;2050']),
    ),
    list(
      'blocks',
      'Block;Row;Pair;Tip;Ring;Notes',
      'BLK4;1;1;white;blue;',
      `BLK4;1;2;white;${to === 'A' ? 'orange' : 'green'};`,
      `BLK4;1;3;white;green;${to === 'A' ? '' : 'second wire lifted'}`,
    ),
    list(
      'patch',
      'Panel;Jack;Normalled to;Strip text',
      `PB1;1;${to === 'A' ? '25' : '26'};PGM 1`,
      'PB1;25;;PGM 1 out',
      'PB1;26;;',
    ),
    list(
      'sources',
      'Unit;Input;Source name;Channel',
      `AIO21;1;${to === 'A' ? 'Host 1' : 'Guest 1'};2101`,
      `AIO21;2;Host 2;${to === 'A' ? '2102' : '2112'}`,
    ),
  ];
  await chooseFiles(files('A'));
  await phone.press(/Use as the plan/);
  await phone.page.waitForURL(`${phone.origin}/`);
  await chooseFiles(files('B'));
  const part = phone.page.getByRole('region', { name: 'What changes' });
  for (const summary of await part.locator('summary').all()) await summary.click();
  const words = () => part.innerText();
  for (const line of [
    'PGM 1, main carrier’s number: K-2209, was K-2201',
    'PGM 1, standby runs over: 2007, carrier line, was 2007',
    'its wires: white and green, was white and orange',
    'notes: second wire lifted, was nothing',
    'AIO21 1 name Guest 1, was Host 1',
    'AIO21 2 channel 2112, was 2102',
    'PB1 1 to PB1 26',
  ])
    await expect.poll(words).toContain(line);
  await pictures(phone.page, 'revision-lists', () => part.evaluate((element) => element.scrollIntoView()));
});

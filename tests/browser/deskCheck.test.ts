// The desk check on a phone: before a plan is taken, for the plan in force, and where there is nothing to find. The
// Quillmere list is invented; so are the planted sheets.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { pictures, ROOT } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('desk-check');
const QUILLMERE = readFileSync(join(ROOT, 'tests', 'fixtures', 'quillmere-run-list.csv'));
const PLANTED = `Cable;From;From Jack;To;To Jack;Signal;Length;Notes
1001;R1 COD42;AES OUT;R1 STL61;AES OUT;AES;2 m;
1002;R1 PLY71;AES OUT 1;R1 PB1;J1;AES;2 m;ON AIR
1003;R1 PLY72;AES OUT 1;R1 PB1;J1;AES;2 m;
1004;R1 SW1;P01;R1 CON30;NET;Enet;130 m;
1004;R1 SW1;P02;R1 CON31;NET;Enet;30 m;
`;
const CLEAN = `Cable;From;From Jack;To;To Jack;Signal;Length
1001;R1 SW1;P01;R1 CON30;NET;Enet;12 m
1002;R1 SW1;P02;R1 CON31;NET;Enet;12 m
`;

const UNITS = `Unit;Rack;U;Address
AIO21;R1;30;192.0.2.21
SAT1;R1;20;
`;
/** With cables of its own it is a whole schedule; lists alone would complete the plan in force. */
const CABLES = `Cable;From;From Jack;To;To Jack;Signal;Length
2001;R1 SAT1;OUT;R1 AIO21;I1;line audio;2 m
`;
const CHANNELS = `Unit;Jack;Direction;Signal;Channel
AIO21;I1;in;line audio;2101
AIO21;I2;in;line audio;9002
`;

const main = () => phone.page.locator('main').innerText();
const soon = (ask: () => Promise<unknown>) => expect.poll(ask);

async function choose(name: string, text: string | Buffer, ...more: [name: string, text: string][]): Promise<void> {
  await phone.page.goto(`${phone.origin}/bring-in`);
  const file = (one: string, words: string | Buffer) => ({
    name: one,
    mimeType: 'text/csv',
    buffer: Buffer.from(words),
  });
  const also = more.map(([one, words]) => file(one, words));
  await phone.page
    .locator('input[type=file]')
    .first()
    .setInputFiles([file(name, text), ...also]);
  await phone.page.getByRole('button', { name: /Use as the plan/ }).waitFor();
}

async function adopt(): Promise<void> {
  await phone.press(/Use as the plan/);
  await phone.page
    .getByRole('button', { name: /Begin an audit/ })
    .first()
    .waitFor();
}

describe('the desk check', () => {
  it('says that there is no plan to check on an empty phone', async () => {
    await phone.page.goto(`${phone.origin}/desk-check`);
    await soon(main).toContain('There is no plan on this phone to check.');
  });

  it('stands in the preview of a planted sheet, hazards in full and with their caution, before anything is taken', async () => {
    await choose('planted.csv', PLANTED);
    await soon(main).toContain('4 findings: 1 hazard to equipment, 1 on-air, 1 service and 1 record');
    await soon(main).toContain('1001 joins two outputs: COD42 AES OUT and STL61 AES OUT.');
    await soon(main).toContain('Local codes and licensed trades decide');
    const record = phone.page.locator('summary', { hasText: 'Record: 1' });
    await record.click();
    await soon(main).toContain('2 cables have the number 1004.');
    await record.scrollIntoViewIfNeeded();
    await pictures(phone.page, 'desk-preview');
  });

  it('is reached from the plan in force, worst first, each finding with its rows, and leads to the cable', async () => {
    await adopt();
    await phone.page.goto(`${phone.origin}/plan`);
    await phone.press(/^Desk check/);
    await phone.page.getByRole('heading', { name: /Desk check/ }).waitFor();
    const heads = phone.page.locator('main h2');
    await soon(() => heads.allInnerTexts()).toEqual(['On-air', 'Service', 'Record', 'What it could not check']);
    await soon(() => phone.page.locator('main .hazard-row').allInnerTexts()).toHaveLength(1);
    await soon(() => phone.page.locator('.screen-foot').innerText()).toContain(
      'Local codes and licensed trades decide',
    );
    await soon(main).toContain('planted row 3 and 4');
    await soon(main).toContain('1004 is 130 m long; Ethernet on pairs, cords included ends at 100 m.');
    await soon(main).toContain('No list of jacks');
    await pictures(phone.page, 'desk-check');
    await phone.press(/PB1 J1 is given to 1002 and 1003/);
    await phone.page.waitForURL(/search/);
    await soon(main).toContain('1002');
  });

  it('finds in the Quillmere list the one cable whose end nobody knows', async () => {
    await choose('quillmere-run-list.csv', QUILLMERE);
    await soon(main).toContain('Faults on paper. 1 finding: 1 record.');
    await adopt();
    await phone.page.goto(`${phone.origin}/desk-check`);
    await soon(main).toContain('9001 lacks an end');
    await soon(main).toContain('quillmere-run-list row 31');
    await expect.poll(() => phone.page.locator('.caution').count()).toBe(0);
    await pictures(phone.page, 'desk-quillmere');
  });

  it('says where it finds nothing, and that only a walk can tell', async () => {
    await choose('clean.csv', CLEAN);
    await soon(main).toContain('The desk check finds nothing');
    await adopt();
    await phone.page.goto(`${phone.origin}/desk-check`);
    await soon(main).toContain('The desk check finds nothing.');
    await soon(main).toContain('Only a walk can tell');
    await soon(main).toContain('No list of units');
    await pictures(phone.page, 'desk-empty');
  });

  it('holds the channels against the rule that the station sets, and the rule survives a reload', async () => {
    await choose('channels.csv', CHANNELS, ['units.csv', UNITS], ['cables.csv', CABLES]);
    await soon(main).toContain('Faults on paper. 1 finding: 1 record.');
    await adopt();
    await phone.page.goto(`${phone.origin}/desk-check`);
    await soon(main).toContain('AIO21 I2 has channel 9002; by the station’s rule it is 2102.');
    await phone.press(/Rules/);
    await phone.page.getByRole('heading', { name: /station’s rules/ }).waitFor();
    await soon(main).toContain('Nobody has set any yet.');
    await phone.page.getByLabel('From channel').fill('9000');
    await phone.page.getByLabel('To channel').fill('8000');
    await phone.press('Add these numbers');
    await soon(main).toContain('The last number is lower than the first.');
    await phone.page.getByLabel('To channel').fill('9099');
    await phone.page.getByLabel('Why these').fill('outside sources');
    await phone.press('Add these numbers');
    await soon(main).toContain('9000 to 9099');
    await pictures(phone.page, 'site-rules');
    // Put away in the middle of it: what was changed is still there, and still not kept.
    await phone.page.reload();
    await soon(main).toContain('9000 to 9099');
    await soon(main).toContain('Nobody has set any yet.');
    await phone.press(/Save the rules/);
    await phone.page.waitForURL(/desk-check/);
    await soon(main).toContain('The desk check finds nothing.');
    await phone.page.goto(`${phone.origin}/site-rules`);
    await soon(main).toContain('9000 to 9099');
    await soon(main).toContain('Set by');
    // The preview of the next sheet is held against it too.
    await choose('channels.csv', CHANNELS, ['units.csv', UNITS], ['cables.csv', CABLES]);
    await soon(main).toContain('The desk check finds nothing');
    await phone.page.goto(`${phone.origin}/site-rules`);
    await phone.page.getByLabel('Last number of the address, times').fill('10');
    await soon(main).toContain('192.0.2.21, input 1: channel 211.');
    await phone.press(/Save the rules/);
    await phone.page.waitForURL(/desk-check/);
    await soon(main).toContain('AIO21 I1 has channel 2101; by the station’s rule it is 211.');
    await phone.press(/Rules/);
    await phone.press(/Usual rules/);
    await phone.press(/Save the rules/);
    await phone.page.waitForURL(/desk-check/);
    await soon(main).toContain('by the station’s rule it is 2102');
  });

  it('reads a sheet by the words of the station, and keeps its colours of pairs and contacts of audio', async () => {
    const sheet = 'Cable No,From Unit,From Jack,To Unit,To Jack,Signal\n1001,SW1,P01,CON1,NET,Blue loop\n';
    await choose('words.csv', sheet);
    await soon(main).toContain('Which signal is this?');
    await phone.page.goto(`${phone.origin}/site-rules`);
    await phone.page.getByLabel('Word on your sheets').fill('UPS');
    await phone.page.getByLabel('Means').selectOption('network');
    await phone.press('Add this word');
    await soon(main).toContain('keeps its meaning');
    await phone.page.getByLabel('Word on your sheets').fill('Blue loop');
    await phone.page.getByLabel('Means').selectOption('intercom');
    await phone.press('Add this word');
    await soon(main).toContain('Means intercom');
    await phone.page.getByText('Our own order').click();
    const pairs = phone.page.getByLabel('Each pair as tip/ring, in order');
    await expect.poll(() => pairs.inputValue()).toContain('white/blue, white/orange');
    await pairs.fill('black/brown, black/brown');
    await soon(main).toContain('black/brown is listed twice');
    await phone.page.getByLabel('Left', { exact: true }).fill('3/6');
    await soon(main).toContain('left and right share contact 3');
    await pictures(phone.page, 'site-rules-wrong', () => pairs.scrollIntoViewIfNeeded());
    await phone.press(/Save the rules/);
    await soon(main).toContain('Something typed below cannot be read');
    await pairs.fill('black/brown, black/red, grey/brown');
    await phone.page.getByLabel('Right', { exact: true }).fill('1/2');
    await soon(main).toContain('Pair 3: grey with brown.');
    await soon(main).toContain('Left 3 hot, 6 cold; Right 1 hot, 2 cold');
    await pictures(phone.page, 'site-rules-tables', () => pairs.scrollIntoViewIfNeeded());
    await phone.press(/Save the rules/);
    await phone.page.waitForURL(/desk-check/);
    await phone.page.goto(`${phone.origin}/site-rules`);
    await soon(main).toContain('Left 3 hot, 6 cold');
    await choose('words.csv', sheet);
    await soon(main).not.toContain('Could not be read: answer these');
    await soon(main).toContain('Signal words');
  });
});

// Judging causes and deciding differences at phone and desk size, by day and by night, without a network: what is usual
// by two taps, anything else with its reason; it survives a reload, is taken back by one tap, and stands in the report.
// Data: the demo station (invented).
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';
import { reportsAgree } from './reportsAgree.ts';

const phone = onePhone('decisions');
const { press, read } = phone;
let page: Page;
beforeAll(() => {
  page = phone.page;
});

const main = () => page.locator('main');
const shown = async () => (await page.locator('body').innerText()).replace(/\s+/g, ' ');
const causes = () => page.getByRole('region', { name: 'Causes', exact: true });
const dialog = () => page.getByRole('dialog');
const differences = async () => {
  await page.goto(`${phone.origin}/audit/${phone.audit}/differences`);
  await main().waitFor();
};
/** Opens the first row that bears these words; its details are beneath it. */
const open = async (words: RegExp) => {
  await main().getByRole('button', { name: words }).first().click();
  await page.locator('.difference-details').first().waitFor();
};
const signed = () => dialog().getByRole('button', { name: /Sign$/ }).click();
const judging = () => page.getByRole('region', { name: 'Is that what happened?' });
const deciding = () => page.getByRole('region', { name: 'What is to be done?' });

const show = (name: string, at = '.decide') =>
  pictures(page, `decisions-${name}`, () => page.locator(at).first().scrollIntoViewIfNeeded());

/** WCAG rules that a machine can check (axe-core, W3C ACT rules). */
async function wrongs(): Promise<string[]> {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe: run } = window as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    return (await run.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
  });
}

describe('a cause', () => {
  it('is accepted by two taps, one of the two stories, with name and time', async () => {
    await phone.demoOffline();
    await phone.begin();
    for (const [place, label] of [
      ['SW1/P03', '1004'],
      ['SW1/P04', '1003'],
      ['SW1/P05', '7777'],
    ] as const)
      await read(place, label);
    await differences();
    await open(/Crossed, or the labels are swapped/);
    await show('cause');
    expect(await wrongs()).toEqual([]);
    await press('Accept: two cables crossed');
    await expect.poll(shown).toMatch(/Accepted: two cables crossed\. I\. Halloran, \d+ \w+ \d{4}, \d\d:\d\d\./);
    // What was seen is as sure as before.
    await expect.poll(() => causes().innerText()).toMatch(/Possible\. .*Accepted by I\. Halloran\./);
  });

  it('stays accepted through a reload, and undo takes it back', async () => {
    await page.reload();
    await expect.poll(() => causes().innerText()).toContain('Accepted by I. Halloran');
    await open(/Two cables crossed/);
    await show('accepted');
    await judging().getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => causes().innerText()).not.toContain('Accepted by');
    await expect.poll(() => causes().innerText()).toContain('Crossed, or the labels are swapped');
  });

  it('said no to wants a reason, is not offered any more, and may be taken up again', async () => {
    await judging().getByRole('button', { name: 'Reject', exact: true }).click();
    await signed();
    await dialog().getByText('Type why. A reason is needed here.').waitFor();
    await dialog().getByLabel('Why').fill('they were renumbered in May');
    await show('no', '.dialog');
    await signed();
    await dialog().waitFor({ state: 'detached' });
    await expect.poll(shown).not.toContain('Fits as well');
    await expect.poll(shown).toContain('Rejected: crossed, or the labels are swapped. I. Halloran');
    await expect.poll(shown).toContain('they were renumbered in May');
    // No fact is lost: both jacks stand for themselves now.
    await expect
      .poll(() =>
        main()
          .getByRole('button', { name: /Label not in its planned jack/ })
          .count(),
      )
      .toBe(2);
    await show('refused', '.decide-said');
    await page.getByRole('region', { name: 'Rejected' }).getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => causes().innerText()).toContain('Crossed, or the labels are swapped');
  });

  it('in own words stands as a cause of its own', async () => {
    await differences();
    await open(/Crossed, or the labels are swapped/);
    await press('It is something else…');
    await dialog().getByLabel('What it is').fill('Renumbered in May');
    await dialog().getByLabel('How you know').fill('it is in the log book');
    await signed();
    await dialog().waitFor({ state: 'detached' });
    await expect.poll(() => causes().innerText()).toContain('Renumbered in May');
    await expect.poll(() => causes().innerText()).toContain('In the words of I. Halloran');
    await open(/Renumbered in May/);
    await show('own-words');
    await judging().getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => causes().innerText()).not.toContain('Renumbered');
  });

  it('judged two ways is undecided, with both names', async () => {
    await differences();
    await open(/Crossed, or the labels are swapped/);
    await press('Accept: labels swapped');
    await expect.poll(() => causes().innerText()).toContain('Accepted by I. Halloran');
    await press('Change the answer');
    await judging().getByRole('button', { name: 'Reject', exact: true }).click();
    await dialog().getByLabel('Why').fill('I followed one of them');
    await dialog().getByLabel('Signed by').fill('L. Brandt');
    await signed();
    await dialog().waitFor({ state: 'detached' });
    await expect.poll(() => causes().innerText()).toContain('Two people do not agree');
    await expect.poll(shown).toContain('It stays undecided until one of the two is undone');
    await show('disputed');
    await judging().getByRole('button', { name: 'Undo' }).last().click();
    await expect.poll(() => causes().innerText()).not.toContain('do not agree');
  });
});

describe('a decision', () => {
  it('is the usual one by two taps, for all that a cause covers', async () => {
    await differences();
    await open(/Labels swapped/);
    await expect.poll(() => deciding().innerText()).toContain('Usual after a move: fix the wiring.');
    await deciding().getByRole('button', { name: 'Fix the wiring' }).click();
    await expect.poll(() => causes().innerText()).toContain('Decided: fix the wiring.');
    await page.reload();
    await expect.poll(() => causes().innerText()).toContain('Decided: fix the wiring.');
  });

  it('to leave a difference wants its reason, and undo takes it back', async () => {
    await open(/Cable not in the plan/);
    await deciding().getByRole('button', { name: 'Leave it' }).click();
    await dialog().getByLabel('Why').fill('until the new desk comes');
    await signed();
    await dialog().waitFor({ state: 'detached' });
    await expect.poll(shown).toContain('Decided: leave it.');
    await show('left');
    await deciding().getByRole('button', { name: 'Undo' }).click();
    await expect.poll(shown).not.toContain('Decided: leave it.');
    await deciding().getByRole('button', { name: 'Leave it' }).click();
    await dialog().getByLabel('Why').fill('until the new desk comes');
    await signed();
    await dialog().waitFor({ state: 'detached' });
    await expect.poll(shown).toContain('Decided: leave it.');
  });

  it('stands in the report with name and reason, and what has none is counted', async () => {
    await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
    await page.getByRole('heading', { name: 'Decisions' }).waitFor();
    await expect.poll(shown).toMatch(/\d of \d differences are decided\./);
    await expect.poll(shown).toContain('Leave it I. Halloran');
    await expect.poll(shown).toContain('until the new desk comes');
    await show('report', '#report-decisions > :last-child');
    expect(await wrongs()).toEqual([]);
  });

  it('to update the plan goes into the plan once its changes were shown, and the one before stays its parent', async () => {
    await read('SW1/P20', '7778');
    await differences();
    await open(/7778/);
    await deciding().getByRole('button', { name: 'Update the plan' }).click();
    await dialog().getByLabel('Why').fill('pulled last week');
    await signed();
    await dialog().waitFor({ state: 'detached' });
    await page.goto(`${phone.origin}/audit/${phone.audit}/report`);
    const amend = page.getByRole('region', { name: 'Update the plan' });
    await expect
      .poll(shown)
      .toMatch(/Updates for the plan (?:.* )?7778 new cable not in the plan SW1 P20 I\. Halloran pulled last week/);
    await expect.poll(() => amend.innerText()).toContain('1 change to the plan in force, as listed above.');
    await show('amend', '[aria-label="Update the plan"]');
    expect(await wrongs()).toEqual([]);
    const { said } = await reportsAgree(page);
    expect(said).toContain('Updates for the plan');
    await amend.getByRole('button', { name: /^Update the plan: / }).click();
    await expect.poll(() => amend.innerText()).toContain('The plan in force already has all of it.');
    await page.goto(`${phone.origin}/plan`);
    await expect.poll(shown).toContain('Cables 149');
  });

  it('is asked for a name where nobody is named', async () => {
    await page.goto(`${phone.origin}/settings`);
    await page.getByLabel('Your name').fill('');
    await phone.settled();
    await differences();
    await open(/Labels swapped/);
    await press('Change the decision');
    await deciding().getByRole('button', { name: 'Fix the wiring' }).click();
    await signed();
    await dialog().getByText('Type your name. Nothing is signed without one.').waitFor();
    await dialog().getByLabel('Signed by').fill('M. Okafor');
    await signed();
    await dialog().waitFor({ state: 'detached' });
    await expect.poll(shown).toContain('Fix the wiring. M. Okafor');
  });
});

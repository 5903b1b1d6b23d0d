// What fails without anybody having expected it is said, offers the record as a file, and the walk goes on beneath.
// Failures are made in the page; data invented.
import { expect, it } from 'vitest';
import { pictures } from './harness.ts';
import { onePhone } from './onePhone.ts';

const phone = onePhone('last-resort');
const failures = () => phone.page.getByRole('dialog', { name: 'Something in the app failed.' });

it('tells a rejected promise once, with the record as a file, and goes on', async () => {
  const { page } = phone;
  await page.goto(phone.origin);
  await page.getByText('Open the demo station').click();
  await page.getByText('Begin an audit').first().waitFor();
  await page.evaluate(() => void Promise.reject(new TypeError('the odd thing is not a function')));
  await failures().waitFor();
  expect(await failures().innerText()).toMatch(/TypeError: the odd thing is not a function/);
  expect(await failures().innerText()).toMatch(/What was recorded is kept on this phone/);
  await pictures(page, 'last-resort');

  await failures()
    .getByRole('button', { name: /Make a file/ })
    .click();
  const download = page.waitForEvent('download');
  await failures()
    .getByRole('button', { name: /Save the file/ })
    .click();
  expect((await download).suggestedFilename()).toMatch(/\.asfound\.zip$/);

  await failures().getByRole('button', { name: 'Go on' }).click();
  await failures().waitFor({ state: 'detached' });
  expect(await page.getByText('Begin an audit').first().isVisible()).toBe(true);
});

it('says nothing of what was called off, such as a video that is taken away before it plays', async () => {
  const { page } = phone;
  await page.evaluate(() => {
    void Promise.reject(new DOMException('The play() request was interrupted.', 'AbortError'));
  });
  // Told after it: had it been a failure, its own words would stand there instead.
  await page.evaluate(() => void Promise.reject(new Error('a real one')));
  await failures().waitFor();
  expect(await failures().innerText()).toMatch(/a real one/);
  await failures().getByRole('button', { name: 'Go on' }).click();
});

it('tells what is thrown outside of any promise, but the same thing only once', async () => {
  const { page } = phone;
  const fail = (what: string) =>
    page.evaluate(
      (message) =>
        new Promise<void>((done) => {
          setTimeout(() => {
            setTimeout(done);
            throw new RangeError(message);
          });
        }),
      what,
    );
  await fail('another odd thing');
  await failures().waitFor();
  await failures().getByRole('button', { name: 'Go on' }).click();
  await fail('another odd thing');
  await fail('a third one');
  await failures().waitFor();
  expect(await failures().innerText()).toMatch(/a third one/);
  expect(await failures().innerText()).not.toMatch(/another/);
});

// A record worker that ends in the middle of a question, at phone size without a network: every screen that waits says so
// with the next step, none waits for ever, and the next press is answered. Data: the demo station (invented).
import { beforeAll, expect, it } from 'vitest';
import { onePhone } from './onePhone.ts';

const phone = onePhone('unanswered');
const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask);
const main = () => phone.page.locator('#app').innerText();

/** The record worker dies, as on a phone without memory, when it is asked one of these; of no questions, it lives. */
const dieAt = (...questions: string[]) =>
  phone.page.evaluate((dead) => sessionStorage.setItem('dead', dead), questions.join(' '));

beforeAll(async () => {
  await phone.context.addInitScript(() => {
    const { postMessage } = Worker.prototype;
    Object.defineProperty(Worker.prototype, 'postMessage', {
      value(this: Worker, message: { body?: { question?: string } }, over: Transferable[]) {
        const dead = (sessionStorage.getItem('dead') ?? '').split(' ');
        if (!dead.includes(message.body?.question ?? '-')) return postMessage.call(this, message, over as never);
        queueMicrotask(() => this.onerror?.(new ErrorEvent('error', { message: 'out of memory' })));
      },
    });
  });
});

it('while the plan is made of the record: it says why, and the second press makes it', async () => {
  await phone.demoOffline();
  await phone.begin(/^Inherited/);
  await phone.page.goto(`${phone.origin}/audit/${phone.audit}/make-plan`);
  await phone.page.getByRole('textbox').first().waitFor();
  await phone.settled();
  await dieAt('recordPlan');
  await phone.press(/Use as the plan/);
  await soon(main).toMatch(/out of memory/);
  expect(await main()).not.toMatch(/Saving/);
  await dieAt();
  await phone.press(/Use as the plan/);
  await phone.page.waitForURL(/\/plan$/);
});

it('while the plan is written as a sheet, or a sheet is read', async () => {
  await phone.page.goto(`${phone.origin}/plan`);
  await phone.page.getByRole('button', { name: 'Make CSV' }).waitFor();
  await phone.settled();
  await dieAt('planInForce');
  await phone.press('Make CSV');
  await soon(main).toMatch(/out of memory/);
  await phone.page.goto(`${phone.origin}/bring-in`);
  await phone.page.locator('input[type=file]').setInputFiles({
    name: 'cables.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('No,From,To\n1,SW1 P01,SW1 P02\n'),
  });
  await soon(main).toMatch(/The file was not read\..*out of memory.*Nothing was changed/s);
  await dieAt();
});

it('while phones are compared: what is not known is not passed over', async () => {
  await dieAt('standing');
  await phone.page.goto(`${phone.origin}/sync`);
  await soon(main).toMatch(/The app cannot tell whether two phones disagree\..*out of memory.*Reload the app/s);
  await dieAt();
});

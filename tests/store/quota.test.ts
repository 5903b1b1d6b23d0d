// When pictures and sound must wait for room. Limits: told at 80 %, refused at 95 % of what the browser says (own
// choice); statements are never asked for it.
import { expect, test } from 'vitest';
import { quotaFor, toQuota } from '../../src/store/quota.ts';
import { commandsOf, freshStation, openOrFail } from './helpers.ts';

const GB = 1_000_000_000;
const says = (usage: number | null, quota: number | null) => async () => ({ persisted: null, usage, quota });

test.each([
  [0, 'free'],
  [0.799, 'free'],
  [0.8, 'nearly-full'],
  [0.949, 'nearly-full'],
  [0.95, 'no-room'],
  [2, 'no-room'],
] as const)('%d of the quota is %s', (share, type) => {
  expect(toQuota({ usage: share * GB, quota: GB }, 0).type).toBe(type);
});

test('a browser that does not say refuses nothing', () => {
  expect(toQuota({ usage: null, quota: null }, GB)).toEqual({ type: 'unknown', share: null });
  expect(toQuota({ usage: 5, quota: 0 }, GB)).toEqual({ type: 'unknown', share: null });
});

test('an estimate below what is known to be here counts as what is here', async () => {
  const store = await openOrFail(freshStation());
  const commands = commandsOf(store);
  await commands.storeDocument(new Uint8Array(900), 'image/jpeg');
  expect(await quotaFor(store, says(10, 1000))).toEqual({ type: 'nearly-full', share: 0.9 });
  expect(await quotaFor(store, says(960, 1000))).toEqual({ type: 'no-room', share: 0.96 });
  expect((await commands.record('note', { text: 'kept all the same' })).type).toBe('saved');
});

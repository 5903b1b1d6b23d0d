// When a page is done: nothing in hand, nothing moving, nothing drawn anew. Tests wait for that and never by the clock;
// what a page keeps is read from its databases. Changes nothing.
import type { Page } from 'playwright-core';

/** Frames in a row that must look the same. Effects run behind a frame, drawings measure their room behind the next. */
const STILL = 4;

/**
 * Waits until the app is done: no question or write is open (`data-busy`, src/ui/inHand.ts), the walk takes a tap again,
 * fonts are there, nothing moves. What was said or typed until now is on disk then.
 */
export async function settled(page: Page): Promise<void> {
  for (;;) {
    try {
      return await page.evaluate(async (still) => {
        const { documentElement: root, fonts } = document;
        const moves = () =>
          document
            .getAnimations()
            .some((one) => one.playState === 'running' && one.effect?.getComputedTiming().endTime !== Infinity);
        const open = () =>
          root.dataset.busy !== undefined ||
          fonts.status === 'loading' ||
          document.querySelector('#app > *') === null ||
          document.querySelector('.walk-settling') !== null ||
          moves();
        let [before, same] = ['', 0];
        while (same < still) {
          await new Promise((resolve) => requestAnimationFrame(resolve));
          const now = open() ? '' : document.body.innerHTML;
          same = now !== '' && now === before ? same + 1 : 0;
          before = now;
        }
      }, STILL);
    } catch (error) {
      // The page went elsewhere meanwhile: the next one is waited for.
      if (!/context was destroyed|Cannot find context|navigation/i.test(String(error))) throw error;
      await page.waitForLoadState();
    }
  }
}

/**
 * Waits until the page has had nothing in hand for some turns of its own clock: what was typed or said is on its way to no disk any more.
 * A page whose disk never answers, or that is gone, is waited for no longer than a person would.
 */
export async function nothingInHand(page: Page): Promise<void> {
  const idle = page.evaluate(
    async ({ frames, longest }) => {
      const begun = performance.now();
      let still = 0;
      while (still < frames && performance.now() - begun < longest) {
        await new Promise((resolve) => setTimeout(resolve, 8));
        still = document.documentElement.dataset.busy === undefined ? still + 1 : 0;
      }
    },
    { frames: STILL, longest: 10_000 },
  );
  await idle.catch(() => undefined);
}

/**
 * Waits until a timer of that many milliseconds, set by the page before, has fired, and what followed from it is done: a
 * timer set later for as long fires later, however slow the machine is.
 */
export async function behindTimers(page: Page, ms: number): Promise<void> {
  await page.evaluate((time) => new Promise((resolve) => setTimeout(resolve, time)), ms);
  await settled(page);
}

/** Drafts on this phone's disk, by key. A read waits for the writes that were begun before it. */
export async function drafts(page: Page): Promise<Record<string, unknown>> {
  const rows = await page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const found: { key: string; value: unknown }[] = [];
    for (const { name } of await indexedDB.databases()) {
      const db = await done(indexedDB.open(name ?? ''));
      if (db.objectStoreNames.contains('drafts'))
        found.push(...(await done(db.transaction('drafts').objectStore('drafts').getAll())));
      db.close();
    }
    return found;
  });
  return Object.fromEntries(rows.map(({ key, value }) => [key, value]));
}

// WebKitGTK, the engine of every iPhone, from the system's packages; its storage process dies as phones end it after a
// suspend or when memory is short. Where it cannot be had, npm test leaves this file out and says so.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Served, serve } from '../harness.ts';
import { type Engine, openEngine } from './engine.ts';
import { smoke } from './smoke.ts';
import { beginDemoWalk, keptJacks, sayJacks, standsAt, untilKeptOffline } from './walk.ts';
import { killStorage } from './webkit.ts';
import { whole } from './whole.ts';

describe('in WebKit', () => smoke('webkit'));

describe('the whole way in WebKit', () => whole('webkit'));

describe('when the storage process of WebKit dies', () => {
  const profile = mkdtempSync(join(tmpdir(), 'asfound-storage-'));
  let served: Served;
  let engine: Engine;
  beforeAll(async () => {
    served = await serve();
    engine = await openEngine('webkit', profile);
  });
  afterAll(async () => {
    await engine?.kill();
    await served?.stop();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  });

  const notSaved = () => engine.run(() => document.querySelector('.not-saved')?.textContent ?? '');

  it('entries go on being kept, and outlive the next start and a death at the same moment', async () => {
    const walk = await beginDemoWalk(engine, served.origin);
    await sayJacks(engine, 1, 2);
    await untilKeptOffline(engine);
    killStorage(engine.process);
    await sayJacks(engine, 3, 3);
    expect(await notSaved()).toBe('');
    killStorage(engine.process);
    await sayJacks(engine, 4, 4);
    expect(await notSaved()).toBe('');
    await engine.goto(walk);
    await standsAt(engine, 'P05');
    expect(await keptJacks(engine)).toEqual(['P01', 'P02', 'P03', 'P04']);
    await sayJacks(engine, 5, 5);
    killStorage(engine.process);
    // The same process fetches pages: a load that begins while it dies is refused, and the next one is not.
    await engine.goto(walk).catch(() => engine.goto(walk));
    await engine.until('the walk', () => document.querySelector('.thumb-states'));
    expect(await keptJacks(engine)).toEqual(['P01', 'P02', 'P03', 'P04', 'P05']);
    killStorage(engine.process);
    await sayJacks(engine, 6, 6);
    await engine.kill();
    engine = await openEngine('webkit', profile);
    await engine.goto(walk);
    await engine.until('the walk', () => document.querySelector('.thumb-states'));
    expect(await keptJacks(engine)).toEqual(['P01', 'P02', 'P03', 'P04', 'P05', 'P06']);
    expect(await notSaved()).toBe('');
  });

  it('the bar of what is not saved takes no room from the thumb', async () => {
    // Where the walk was cut off may be the jack before: the entry is on the disk first.
    await engine.goto(await engine.run(() => `${location.origin}${location.pathname}?at=SW1%2FP07`));
    await standsAt(engine, 'P07');
    await engine.run(() => {
      // No way to the database is left: neither the page's own nor a fresh frame's.
      Object.defineProperty(HTMLIFrameElement.prototype, 'contentWindow', { get: () => null, configurable: true });
      IDBObjectStore.prototype.add = () => {
        throw new DOMException('Connection to Indexed Database server lost', 'UnknownError');
      };
    });
    await engine.pressUntil('Reads 1007', '1 entry is not in this phone’s record yet');
    const lowest = () => {
      const tools = document.querySelectorAll('.thumb-tools button');
      return Math.max(...[...tools].map((one) => one.getBoundingClientRect().bottom)) - window.innerHeight;
    };
    await engine.picture('engine-webkit-not-saved');
    // That it goes again is tested after a real loss of the storage process above, and in Chromium: a write cut off in
    // the middle, as here, now and then leaves WebKit's database held up for this page.
    expect(await engine.run(lowest)).toBeLessThanOrEqual(0);
  });
});

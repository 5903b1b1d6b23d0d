// The short run that every engine has to pass: the demo station opens, jacks are said, it goes on without a network, and
// after a kill it stands at the same jack. The whole walk is tested in Chromium.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Served, serve } from '../harness.ts';
import { type Engine, type EngineName, openEngine } from './engine.ts';
import { beginDemoWalk, keptJacks, sayJacks, standsAt, untilKeptOffline, untilRemembered } from './walk.ts';

export function smoke(name: EngineName): void {
  const profile = mkdtempSync(join(tmpdir(), `asfound-${name}-`));
  let served: Served;
  let engine: Engine;
  beforeAll(async () => {
    served = await serve();
    engine = await openEngine(name, profile);
  });
  afterAll(async () => {
    await engine?.kill();
    await served?.stop();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  });

  it('walks, goes on offline, and is at the same jack after a kill', async () => {
    const walk = await beginDemoWalk(engine, served.origin);
    await sayJacks(engine, 1, 3);
    await untilKeptOffline(engine);
    await served.kill();
    await engine.goto(walk);
    await standsAt(engine, 'P04');
    await sayJacks(engine, 4, 4);
    await untilRemembered(engine, 'P05');
    await engine.kill();
    engine = await openEngine(name, profile);
    await engine.goto(walk);
    await standsAt(engine, 'P05');
    expect(await keptJacks(engine)).toEqual(['P01', 'P02', 'P03', 'P04']);
  });
}

// The whole way of both kinds of audit in another engine than Chromium: with a plan from the first jack to the report's
// files, from a sheet of one's own, and with no plan until the record is one. Data: the demo station and invented sheets.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Served, serve } from '../harness.ts';
import { type Engine, type EngineName, openEngine } from './engine.ts';
import { beginDemoWalk, fill, sayJacks, standsAt, typeLabel } from './walk.ts';

/** Invented. */
const SHEET = 'Cable,From unit,From jack,To unit,To jack,Signal\n501,MX1,OUT 1,AMP1,IN 1,analog audio\n';

export function whole(name: EngineName): void {
  let served: Served;
  let profile: string;
  let engine: Engine;
  beforeAll(async () => {
    served = await serve();
    profile = mkdtempSync(join(tmpdir(), `asfound-${name}-`));
    engine = await openEngine(name, profile);
  });
  afterAll(async () => {
    await engine?.kill();
    await served?.stop();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  });

  it('walks with a plan, to differences, work, report and its files', async () => {
    const walk = await beginDemoWalk(engine, served.origin);
    const audit = walk.replace(/\/walk$/, '');
    await sayJacks(engine, 1, 2);
    await standsAt(engine, 'P03');
    await typeLabel(engine, '1004');
    await standsAt(engine, 'P04');
    await typeLabel(engine, '1003');
    await standsAt(engine, 'P05');
    await engine.press('Note');
    await fill(engine, 'dialog textarea', 'Tie missing.');
    await engine.pressPrimary();
    await engine.text('Note saved');
    await engine.press('Undo');
    await engine.text('Undone');
    await engine.goto(`${audit}/differences`);
    await engine.text('1004');
    await engine.text('1003');
    await engine.goto(`${audit}/fixes`);
    await engine.text('SW1 P03');
    await engine.goto(`${audit}/report`);
    await engine.text('1004');
    await engine.press('Make file');
    const downloads = join(profile, 'downloads');
    for (const [button, ending] of [
      ['To read and print', '.html'],
      ['CSV', '.csv'],
    ] as const) {
      await engine.press(button);
      await engine.text(`${ending} was saved`);
      const saved = () => {
        const [file] = readdirSync(downloads).filter((one) => one.endsWith(ending));
        return file === undefined ? '' : readFileSync(join(downloads, file), 'utf8');
      };
      await expect.poll(saved, { timeout: 60_000 }).toContain('SW1 P03');
    }
  });

  it('takes a sheet of one’s own as the plan, and finds its cable', async () => {
    await engine.goto(`${served.origin}/bring-in`);
    await engine.until(
      'the field for a file',
      (text) => {
        const field = document.querySelector<HTMLInputElement>('input[type=file]');
        if (!field) return false;
        const files = new DataTransfer();
        files.items.add(new File([text], 'own.csv', { type: 'text/csv' }));
        field.files = files.files;
        field.dispatchEvent(new Event('change', { bubbles: true }));
        return true;
      },
      SHEET,
    );
    await engine.text('501');
    await engine.pressPrimary();
    await engine.until('the plan in force', () => location.pathname !== '/bring-in');
    await engine.goto(`${served.origin}/cable/501`);
    await engine.text('AMP1 IN 1');
  });

  it('walks with no plan, from a rack’s name to a record that is the plan', async () => {
    await engine.kill();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    profile = mkdtempSync(join(tmpdir(), `asfound-${name}-`));
    engine = await openEngine(name, profile);
    await engine.goto(served.origin);
    await engine.press('Begin with no plan');
    await fill(engine, 'label:Your name', 'I. Halloran');
    await engine.press('Begin the walk');
    await engine.press('Name a rack');
    await fill(engine, 'label:Label on the rack', 'R 9');
    await fill(engine, 'label:Height in U', '24');
    await engine.pressPrimary();
    await fill(engine, 'label:Label on the unit', 'DA-1');
    await fill(engine, 'label:On one line', '4 x XLR in, 1 x RJ45 NET');
    await engine.press('Walk its jacks');
    await standsAt(engine, 'IN 1');
    await typeLabel(engine, '77');
    await standsAt(engine, 'IN 2');
    await engine.press('Empty');
    await standsAt(engine, 'IN 3');
    await engine.goto(await engine.run(() => location.href.replace(/\/walk.*$/, '/report')));
    await engine.press('Use this record as the plan');
    await fill(engine, 'label:Name of the plan', 'As found');
    await engine.pressPrimary();
    await engine.until('the plan', () => location.pathname === '/plan');
    await engine.goto(`${served.origin}/cable/77`);
    await engine.text('DA-1 IN 1');
  });
}

// The desk check as a command: an exit code for each outcome, rows named, JSON only where it was asked for. Invented sheets.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/desk-check.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'desk-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const file = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
async function run(...argv: string[]) {
  let [out, err] = ['', ''];
  const code = await main(argv, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
  });
  return { code, out, err };
}

const HEAD = 'Cable;From;From Jack;To;To Jack;Signal;Length';
const good = () => file('good.csv', `${HEAD}\n1001;CON30;NET;SW1;P01;Enet;22 m\n1002;MIO31;NET;SW1;P02;Enet;22 m\n`);
const bad = () => file('bad.csv', `${HEAD}\n1001;CON30;NET;SW1;P01;Enet;101 m\n1002;MIO31;NET;SW1;P01;Enet;22 m\n`);

describe('npm run desk-check', () => {
  it('ends with 0 and one sentence where nothing contradicts itself', async () => {
    expect(await run(good())).toEqual({
      code: 0,
      out: 'Nothing contradicts itself on paper. The racks may still differ.\n',
      err: '',
    });
  });

  it('ends with 1 and names rows under their severity', async () => {
    const { code, out } = await run(bad());
    expect(code).toBe(1);
    expect(out).toContain('Service');
    expect(out).toContain('SW1 P01 is given to 1001 and 1002. (bad row 2, bad row 3)');
    expect(out).toContain('1001 is 101 m long; Ethernet on pairs, cords included ends at 100 m. (bad row 2)');
    expect(out).toContain('2 in all.');
  });

  it('writes JSON and nothing else when asked', async () => {
    const { out } = await run(bad(), '--json');
    expect(JSON.parse(out)).toMatchObject({
      plan: 'bad',
      findings: [
        {
          kind: 'jack-claimed-twice',
          rows: [
            { sheet: 'bad', row: 2 },
            { sheet: 'bad', row: 3 },
          ],
        },
        {},
      ],
    });
  });

  it('takes the station’s own rules from a file', async () => {
    const rules = file(
      'rules.json',
      JSON.stringify({
        channel: null,
        channelExceptions: [],
        subnets: [
          { name: 'a', subnet: '192.0.2.0/24' },
          { name: 'b', subnet: '192.0.2.128/25' },
        ],
      }),
    );
    expect((await run(good(), '--rules', rules)).out).toContain('The subnets a and b overlap');
  });

  it.each([
    [[], 'One schedule is needed.'],
    [['a.csv', 'b.csv'], 'One schedule is needed.'],
    [['--loud', 'a.csv'], 'Usage:'],
    [['/no/such/file.csv'], 'cannot be opened'],
  ])('ends with 2 and a sentence for %j', async (argv, sentence) => {
    const { code, out, err } = await run(...argv);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(sentence);
  });

  it.each([
    ['not json', 'is no JSON'],
    ['{"channel":{"factor":0},"channelExceptions":[],"subnets":[]}', 'channel factor'],
    ['{}', 'rules.json'],
  ])('ends with 2 where the rules are %j', async (text, sentence) => {
    const { code, err } = await run(good(), '--rules', file('rules.json', text));
    expect(code).toBe(2);
    expect(err).toContain(sentence);
  });
});

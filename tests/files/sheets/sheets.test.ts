// Schedules as stations, contractors and people from elsewhere keep them, each read as an engineer reads it or asked
// about. Invented; the habits are common practice, no published source. `ASFOUND_TABLE=1` prints what became of each and writes it, with the
// sheets as files, to tests/files/sheets/out.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { FAMILIES } from './families.ts';
import { type Fixture, fixtureToFile } from './fixture.ts';
import { judge, type Verdict } from './judge.ts';
import { KNOWN_WRONG } from './knownWrong.ts';

/** Answers that a person has to give for a sheet of one habit, at the most. */
const MOST_DECISIONS = 12;

const fixtures = FAMILIES.flat();
const verdicts = new Map<string, Verdict>();

describe('nothing is read wrong in silence', () => {
  it.each(fixtures.map((fixture): [string, Fixture] => [fixture.name, fixture]))('%s', async (name, fixture) => {
    const verdict = await judge(fixture);
    verdicts.set(name, verdict);
    expect(verdict.decisions).toBeLessThanOrEqual(MOST_DECISIONS);
    if (KNOWN_WRONG[name] === undefined) expect(verdict.wrong).toEqual([]);
    // What is mended has to leave the list of what is known to be wrong.
    else expect(verdict.verdict, `${name} is no longer wrong: take it off the list`).toBe('wrong');
  });

  it('every fixture has a name of its own, and those known to be wrong exist', () => {
    const names = fixtures.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(Object.keys(KNOWN_WRONG).filter((name) => !names.includes(name))).toEqual([]);
    expect(Object.keys(KNOWN_WRONG)).toEqual(Object.keys(KNOWN_WRONG).sort());
  });
});

afterAll(() => {
  if (process.env.ASFOUND_TABLE !== '1') return;
  const lines = [...verdicts].map(([name, { verdict, decisions, cables, wrong, asked }]) =>
    [
      `${verdict.padEnd(8)} ${String(decisions).padStart(3)} ${String(cables).padStart(4)}  ${name}`,
      ...wrong.map((line) => `wrong: ${line}`),
      ...asked.map((line) => `asked: ${line}`),
    ].join('\n                      '),
  );
  const count = (wanted: string) => [...verdicts.values()].filter(({ verdict }) => verdict === wanted).length;
  const sums = ['right', 'asked', 'refused', 'wrong'].map((kind) => `${kind} ${count(kind)}`).join(', ');
  const table = `${lines.sort().join('\n')}\n${verdicts.size} sheets: ${sums}\n`;
  const folder = join(import.meta.dirname, 'out');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'table.txt'), table);
  for (const fixture of fixtures) {
    const { bytes, name } = fixtureToFile(fixture);
    writeFileSync(join(folder, name.replaceAll('/', '-')), bytes);
  }
  console.log(table);
});

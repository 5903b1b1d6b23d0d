// Sheets as stations keep them, against what a competent engineer reads in them: each odd cell alone. All examples are
// invented; the habits are common practice, no source.
import { describe, expect, it } from 'vitest';
import { readTables } from '../../../src/core/plan/readTables.ts';
import type { Table } from '../../../src/core/plan/readTypes.ts';

const table = (name: string, ...lines: string[]): Table => ({
  name,
  rows: lines.map((line) => line.split(';')),
});

function read(...tables: Table[]) {
  const result = readTables(tables, { name: 'test' });
  if (result.type !== 'plan') throw new Error(result.why);
  const { used, blank, joined, skipped, rowsIn } = result.counts;
  expect(used + blank + joined + skipped).toBe(rowsIn);
  const told = (row: number, column: string | undefined, said: string, words: string) =>
    `${row} ${column ?? ''}: ${said} -> ${words}`;
  return {
    ...result,
    /** `label: room or rack, unit, jack > …` of each cable. */
    lines: result.plan.cables.map(({ label, ends }) => {
      const words = ends.map(({ location = '', unit, jack, place }) =>
        [location, unit, jack, place === null ? '(nowhere)' : ''].filter((word) => word !== '').join(' · '),
      );
      return `${label}: ${words.join(' > ')}`;
    }),
    guessed: result.guesses.map(({ row, column, said, readAs }) => told(row, column, said, readAs)),
    asked: result.questions.map(({ row, column, said, question }) => told(row, column, said, question)),
  };
}

const ONE = 'Cable;From;To';
const TWO = 'Cable;From;From Jack;To;To Jack';

describe('both ends in one cell each', () => {
  it.each([
    ['RACK1 U12 P03', 'RACK1 U12 · RACK1 U12 · P03'],
    ['RACK1/U12/P03', 'RACK1 U12 · RACK1 U12 · P03'],
    ['RACK1-U12-P03', 'RACK1 U12 · RACK1 U12 · P03'],
    ['RACK1, U14, OUT L', 'RACK1 U14 · RACK1 U14 · OUT L'],
    ['R2 U30 AIO21 I1', 'R2 U30 · AIO21 · I1'],
    ['R2 AIO21 OUT 1', 'R2 · AIO21 · OUT 1'],
    ['MIX OUT L/R', 'MIX · OUT L/R'],
    ['COD42 AES OUT', 'COD42 · AES OUT'],
    ['Studio 1 Desk MIC 1', 'Studio 1 · Desk · MIC 1'],
    ['Rack A DA3 7', 'Rack A · DA3 · 7'],
  ])('%s', (cell, end) => {
    const { lines, guessed } = read(table('S', ONE, `1;${cell};ZZZ 9`));
    expect(lines).toEqual([`1: ${end} > ZZZ · 9`]);
    expect(guessed.some((line) => line.startsWith(`2 From: ${cell} -> `))).toBe(true);
  });
});

describe('a unit whose name ends with a number', () => {
  it.each([
    ['Patch Panel 3', 'Patch Panel 3'],
    ['Mixer 1', 'Mixer 1'],
    ['STA MIC 1', 'STA · MIC 1'],
    ['R2 Main Mixer', 'R2 · Main Mixer'],
    ['Studio A', 'Studio A'],
    ['STA CON30', 'STA · CON30'],
  ])('%s is no unit called by its last word', (cell, end) => {
    expect(read(table('S', TWO, `1;${cell};5;ZZZ;9`)).lines).toEqual([`1: ${end} · 5 > ZZZ · 9`]);
  });
});

describe('a place in a rack without a name', () => {
  const TITLES = 'Cable;From Rack;From U;From Port;To Rack;To U;To Port';
  it('stands for the unit that the list has there', () => {
    const units = table('Gear', 'Rack;U;Size;Equipment ID', 'R1;40;2;SW1', 'R2;30;1;AIO1');
    const { lines, guessed } = read(table('S', TITLES, '1;R1;41;P1;R2;30;I1', '2;R1;41;P2;R2;30;I2'), units);
    expect(lines).toEqual(['1: R1 · SW1 · P1 > R2 · AIO1 · I1', '2: R1 · SW1 · P2 > R2 · AIO1 · I2']);
    expect(guessed.filter((line) => line.includes('the list of units has there'))).toEqual([
      '2 From U: 41 -> SW1, which the list of units has there',
      '2 To U: 30 -> AIO1, which the list of units has there',
    ]);
  });

  it('is a unit called by its place where no list says it', () => {
    const { lines, plan } = read(table('S', TITLES, '1;R1;U40;P1;R2;30;I1'));
    expect(lines).toEqual(['1: R1 · R1 U40 · P1 > R2 · R2 U30 · I1']);
    expect(plan.units.map(({ rack, u }) => [rack, u])).toEqual([
      ['R1', 40],
      ['R2', 30],
    ]);
  });
});

describe('legs and pairs', () => {
  it('of a multicore stay with their rows', () => {
    const { plan, guessed } = read(
      table('S', 'Cable;Pair;From;From Jack;To;To Jack', 'M7;1;A;X1;B;X1', 'M7;2;A;X2;B;X2'),
    );
    expect(plan.cables.map(({ notes }) => notes)).toEqual(['pair 1', 'pair 2']);
    expect(guessed).toContain('2 Pair: 1 -> pair 1, kept as a note');
  });

  it('in one cell are two ends', () => {
    expect(read(table('S', TWO, '1;CDP;OUT L/OUT R;MIX;IN 9/IN 10')).lines).toEqual([
      '1: CDP · OUT L > MIX · IN 9 > CDP · OUT R > MIX · IN 10',
    ]);
  });
});

it('a nickname is told at the column of the room', () => {
  const { guessed } = read(
    table(
      'S',
      'Cable;From Room;From Unit;From Jack;To Unit;To Jack',
      '1;Prod 2;M;1;R;1',
      '2;Studio C;M;2;R;2',
      '',
      'Prod 2 = Studio C',
    ),
  );
  expect(guessed).toContain('2 From Room: Prod 2 -> Studio C, as S, row 5 explains');
});

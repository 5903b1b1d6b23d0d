// Names that look alike and are not the same letters: another alphabet, zeros in front. Invented; which letters look
// alike: Unicode Technical Standard 39, confusables.txt.
import { describe, expect, it } from 'vitest';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import { NO_ANSWERS, withCell } from '../../../src/core/schedule/sheetAnswers.ts';

const HEAD = ['Cable', 'From', 'From Jack', 'To', 'To Jack'];

function read(rows: string[][], answers = NO_ANSWERS) {
  const result = readTables([{ name: 'A', rows: [HEAD, ...rows] }], { name: 'a', answers });
  if (result.type !== 'plan') throw new Error(result.why);
  return result;
}
const told = (result: ReturnType<typeof read>) =>
  result.guesses.filter(({ kind }) => kind === 'look-alike').map(({ row, column, said }) => [row, column, said]);

describe('letters of another alphabet', () => {
  const rows = [
    ['A101', 'CON30', 'OUT 1', 'AMP1', 'IN 1'],
    ['\u0410102', 'CON30', 'OUT 2', 'AMP1', 'IN 2'],
    ['A103', '\u0421ON30', 'OUT 3', 'AMP2', 'IN 1'],
    ['A104', 'CON30', 'OUT 4', '\u0391MP2', 'IN 2'],
  ];

  it('are read as the Latin letters they look like, each name told', () => {
    const result = read(rows);
    expect(result.plan.cables.map(({ label }) => label)).toEqual(['A101', 'A102', 'A103', 'A104']);
    expect(result.plan.units.map(({ id }) => id)).toEqual(['CON30', 'AMP1', 'AMP2']);
    expect(told(result)).toEqual([
      [3, 'Cable', '\u0410102'],
      [4, 'From', '\u0421ON30'],
      [5, 'To', '\u0391MP2'],
    ]);
  });

  it('are told among figures too, where the rest of the list is Latin', () => {
    const result = read([
      ['101', 'A1', '1', 'B1', '1'],
      ['102', 'A1', '2', 'B1', '2'],
      ['\u0410103', 'A1', '3', 'B1', '3'],
    ]);
    expect(told(result)).toEqual([[4, 'Cable', '\u0410103']]);
  });

  it('stay where a person takes the cell as written', () => {
    const answer = { sheet: 'A', column: 1, row: 3, said: '\u0410102', as: 'literal', text: '' } as const;
    const result = read(rows, withCell(NO_ANSWERS, answer));
    expect(result.plan.cables[1]?.label).toBe('\u0410102');
    expect(told(result)).toHaveLength(2);
  });

  it('stay in a list that is written in them', () => {
    const result = read([
      ['\u041a1', '\u041f\u0423\u041b\u042c1', '\u0412\u042b\u0425 1', '\u0423\u0421\u0418\u041b1', '\u0412\u0425 1'],
      ['\u041a2', '\u041f\u0423\u041b\u042c1', '\u0412\u042b\u0425 2', '\u0423\u0421\u0418\u041b1', '\u0412\u0425 2'],
    ]);
    expect(result.plan.cables.map(({ label }) => label)).toEqual(['\u041a1', '\u041a2']);
    expect(told(result)).toEqual([]);
  });
});

describe('zeros in front', () => {
  it('that some jacks of a unit have and others lack are told, and nothing is changed', () => {
    const result = read([
      ['501', 'A1', 'NET', 'SW1', 'P01'],
      ['502', 'A2', 'NET', 'SW1', 'P02'],
      ['503', 'A3', 'NET', 'SW1', 'P3'],
      ['504', 'A4', 'NET', 'SW1', 'P12'],
      ['505', 'A5', 'NET', 'SW2', 'P3'],
    ]);
    expect(told(result)).toEqual([[4, 'To Jack', 'P3']]);
    expect(result.plan.cables[2]?.ends[1]?.place).toBe('SW1/P3');
  });

  it('are asked about where both names are there', () => {
    const result = read([
      ['501', 'A1', 'NET', 'SW1', 'P01'],
      ['502', 'A2', 'NET', 'SW1', 'P1'],
    ]);
    expect(result.questions.filter(({ kind }) => kind === 'spelling')).toMatchObject([
      { row: 3, said: 'P1', question: 'Is this P01 of SW1?' },
    ]);
  });

  it('that some cables have and others lack are told', () => {
    const result = read([
      ['0098', 'A1', '1', 'B1', '1'],
      ['99', 'A1', '2', 'B1', '2'],
      ['0100', 'A1', '3', 'B1', '3'],
    ]);
    expect(told(result)).toEqual([[3, 'Cable', '99']]);
    expect(result.plan.cables.map(({ label }) => label)).toEqual(['0098', '99', '0100']);
  });
});

describe('many of them', () => {
  it('cost one look each', () => {
    const rows = Array.from({ length: 5_000 }, (_, i) => [
      `\u0410${i}`,
      'SW1',
      i % 2 === 0 ? `P${i}` : `P0${i}`,
      `SW${i}`,
      `Q${String(i).padStart(6, '0')}`,
    ]);
    const result = read([['A1', 'B1', '1', 'B2', '1'], ...rows]);
    expect(result.plan.cables).toHaveLength(5_001);
  }, 30_000);
});

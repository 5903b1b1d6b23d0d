// The judge itself: what is silent, what is asked, and that words about something else do not count. Invented.
import { describe, expect, it } from 'vitest';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import { type Fixture, fixtureToFile, fixtureToTables, fixtureToWanted } from './fixture.ts';
import { judge } from './judge.ts';

const sheet = (rows: string): Fixture => ({ name: 'x', who: 'x', sheets: [{ name: 'S', rows }] });
const HEAD = 'Cable | From | From Jack | To | To Jack | Signal';

describe('the judge', () => {
  it('calls right what is read as wanted, and compares signal, status and order', async () => {
    const row = '1 | SW1 | P01 | SW2 | P02 | AES';
    const verdictOf = async (reading: string) => (await judge(sheet(`${HEAD}\n${row} => ${reading}`))).verdict;
    expect(await verdictOf('1: SW1 @ P01 > SW2 @ P02 {aes3}')).toBe('right');
    expect(await verdictOf('1: SW2 @ P02 > SW1 @ P01')).toBe('wrong');
    expect(await verdictOf('1: SW1 @ P01 > SW2 @ P02 {spare}')).toBe('wrong');
    expect(await verdictOf('1: SW1 @ P01 > SW2 @ P02 {on air}')).toBe('wrong');
    expect(await verdictOf('2: SW1 @ P01 > SW2 @ P02')).toBe('wrong');
    // The reader says aloud which signal it took the word for.
    expect(await verdictOf('1: SW1 @ P01 > SW2 @ P02 {network}')).toBe('asked');
    // A guess about the signal says nothing of the jack.
    expect(await verdictOf('1: SW1 @ P09 > SW2 @ P02')).toBe('wrong');
  });

  it('calls wrong a cable that is left out or made up without a word, and asked one that a row was said not to be', async () => {
    expect((await judge(sheet(`${HEAD}\n1 | SW1 | P01 | SW2 | P02 |`))).wrong).toHaveLength(3);
    const heading = await judge(
      sheet(`${HEAD}\nRACK 2 | | | | | => 7: A @ 1 > B @ 2\n1 | SW1 | P01 | SW2 | P02 | => 1: SW1 @ P01 > SW2 @ P02`),
    );
    expect(heading).toMatchObject({ verdict: 'asked', asked: [expect.stringContaining('RACK 2')] });
  });

  it('counts a question at another row or column as none', async () => {
    const rows =
      '1 | SW1 | P01 | SW2 | ?? | => 1: SW1 @ P01 > SW2 @ ?\n2 | SW1 | P03 | SW2 | P04 | => 2: SW1 @ P03 > SW2 @ P05';
    expect((await judge(sheet(`${HEAD}\n${rows}`))).wrong).toEqual(['S row 3: 2 jack 2 is P05, read as P04']);
    const same = '1 | SW1 | P01 | SW2 | ?? | => 1: SW1 @ P09 > SW2 @ ?';
    expect((await judge(sheet(`${HEAD}\n${same}`))).verdict).toBe('wrong');
  });

  it('calls refused what is turned down, and right where there is nothing to read', async () => {
    expect((await judge(sheet('hello | world => 1: A @ 1 > B @ 2'))).verdict).toBe('refused');
    expect((await judge(sheet('hello | world'))).verdict).toBe('right');
  });
});

describe('fixtures as files', () => {
  const looks = {
    struckRows: [3],
    hiddenRows: [3],
    comments: { A2: 'note' },
    numbers: { A2: '0000' },
  };
  const book: Fixture = {
    ...sheet(`${HEAD}\n12 | SW1 | P01 | SW2 | P02 | => 0012: SW1 @ P01 > SW2 @ P02\n13 | a | b | c | d |`),
    file: 'workbook',
  };
  book.sheets[0]!.looks = looks;

  it('come back with the texts of their cells', async () => {
    const tables = await fixtureToTables(book);
    if (typeof tables === 'string') throw new Error(tables);
    expect(tables[0]?.rows[1]?.slice(0, 5)).toEqual(['0012', 'SW1', 'P01', 'SW2', 'P02']);
    expect(fixtureToWanted(book)).toMatchObject([
      { row: 2, label: ['0012'], ends: [{ unit: ['SW1'], jack: ['P01'] }, {}] },
    ]);
  });

  it('as text keep a guarded number as it is saved', () => {
    const file = fixtureToFile({ ...sheet('Cable | From\n="0101" | a, b'), file: { csv: ',' } });
    expect(new TextDecoder().decode(file.bytes)).toBe('Cable,From\r\n="0101","a, b"\r\n');
  });

  it('are read the same twice', async () => {
    const tables = await fixtureToTables(book);
    if (typeof tables === 'string') throw new Error(tables);
    expect(readTables(tables, { name: 'x' })).toEqual(readTables(tables, { name: 'x' }));
  });
});

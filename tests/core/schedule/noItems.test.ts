// Rows between the cables that are none, on invented sheets. What an engineer takes for no cable is common practice, no
// source.
import { describe, expect, it } from 'vitest';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';

const HEAD = 'Cable|From|From Jack|To|To Jack|Notes';
const ITEMS = ['1001|AIO21|OUT 1|CON30|IN 1|', '1002|AIO21|OUT 2|CON30|IN 2|', '1003|AIO22|OUT 1|CON30|IN 3|'];
const sheet = (...lines: string[]): Table => ({
  name: 'Sheet',
  rows: lines.map((line) => line.split('|').map((cell) => cell.trim())),
});

function read(table: Table) {
  const got = readTables([table], { name: 'x' });
  if (got.type !== 'plan') throw new Error(got.why);
  return { ...got, labels: got.plan.cables.map(({ label }) => label) };
}

describe('a row that is no cable', () => {
  it.each([
    ['the header with other words for one of them', 'CABLE NO|FROM|FROM JACK|TO|TO JACK|NOTES'],
    ['an example', 'e.g. 1000|AIO99|OUT 1|CON99|IN 1|'],
    ['a row to be filled in', 'XXXX|UNIT|JACK|UNIT|JACK|'],
    ['a phase', 'Phase 2|studio B|week 14|two men|open|'],
    ['a remark', 'Note 3|ask the night shift before you unplug any of these||see book|p. 14|'],
    ['a sum', 'All racks|4 cables||||'],
    ['approvals', 'Checked|MK|02/05/2019|Client|JD|'],
    ['approvals in German', 'Geprüft von:|MK|02.05.2019|||'],
  ])('%s is left out and told', (_, row) => {
    const [first = '', ...rest] = ITEMS;
    const { labels, guesses, counts } = read(sheet(HEAD, first, row, ...rest));
    expect(labels).toEqual(['1001', '1002', '1003']);
    expect(guesses.filter(({ kind }) => kind === 'no-item')).toMatchObject([{ row: 3, said: row.split('|')[0] }]);
    expect(counts).toMatchObject({ rowsIn: 4, used: 3, skipped: 1 });
  });

  it('numbers of columns below the titles, in figures or letters, and nowhere else', () => {
    expect(read(sheet(HEAD, '1|2|3|4|5|6', ...ITEMS)).labels).toEqual(['1001', '1002', '1003']);
    expect(read(sheet(HEAD, '(A)|(B)|(C)|(D)|(E)|(F)', ...ITEMS)).labels).toEqual(['1001', '1002', '1003']);
    expect(read(sheet(HEAD, ...ITEMS, '1|2|3|4|5|6')).labels).toContain('1');
  });

  it('a table of revisions ends where its dates end', () => {
    const revisions = [
      'Rev|Description|Date|Drawn|Checked|',
      '0|For tender|01/02/2019|JD|MK|',
      '1|As built|30/08/2019|PS|MK|',
    ];
    const [first = '', ...rest] = ITEMS;
    expect(read(sheet(HEAD, first, ...revisions, ...rest)).labels).toEqual(['1001', '1002', '1003']);
  });

  it('numbers that begin like such words stay numbers', () => {
    const rows = ['EX.1|A1|1|B1|1|', 'REV-2|A1|2|B1|2|', 'PHASE-3|A1|3|B1|3|', 'N4|A1|4|B1|4|', 'ALL5|A1|5|B1|5|'];
    expect(read(sheet(HEAD, ...rows)).labels).toEqual(['EX.1', 'REV-2', 'PHASE-3', 'N4', 'ALL5']);
  });

  it('a floor or a phase in front of the unit is a place', () => {
    const { labels } = read(sheet('From Room|From Unit|From Jack|To Unit|To Jack|Cable', 'Level 1|A1|1|B1|1|7'));
    expect(labels).toEqual(['7']);
  });
});

describe('titles in another order right below the items', () => {
  it('begin a list of their own', () => {
    const { plan, counts } = read(
      sheet(
        'Cable|From Unit|From Jack|To Unit|To Jack',
        '1|A1|O1|B1|I1',
        'To Unit|To Jack|From Unit|From Jack|Cable',
        'B1|I2|A1|O2|2',
      ),
    );
    expect(plan.cables.map(({ label, ends }) => [label, ...ends.map(({ place }) => place)])).toEqual([
      ['1', 'A1/O1', 'B1/I1'],
      ['2', 'A1/O2', 'B1/I2'],
    ]);
    expect(counts.lists.map(({ headerRow }) => headerRow)).toEqual([1, 3]);
  });
});

describe('what may be no cable is asked about', () => {
  it('a number without a figure among figures', () => {
    const { questions } = read(sheet(HEAD, ...ITEMS, 'Remote|AIO22|OUT 2|CON30|IN 4|'));
    expect(questions).toMatchObject([{ kind: 'no-item', row: 5, column: 'Cable', said: 'Remote' }]);
  });

  it('not where names are the habit, nor for words that are read', () => {
    const names = ['PGM|A1|1|B1|1|', 'AUX|A1|2|B1|2|', 'CUE|A1|3|B1|3|', '4|A1|4|B1|4|'];
    expect(read(sheet(HEAD, ...names)).questions).toEqual([]);
    const { questions } = read(sheet(HEAD, ...ITEMS, 'spare|AIO22|OUT 2|CON30|IN 4|'));
    expect(questions.map(({ kind }) => kind)).not.toContain('no-item');
  });

  it('a unit whose name is a sentence', () => {
    const { questions } = read(sheet(HEAD, ...ITEMS, '1004|the old mixer that nobody dares to touch|1|CON30|IN 4|'));
    expect(questions.filter(({ kind }) => kind === 'unit')).toMatchObject([
      { row: 5, column: 'From', question: 'Is this the name of a unit?' },
    ]);
  });
});

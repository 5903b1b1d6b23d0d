// Columns told by what stands in them and beside them, on invented sheets. What a column is taken for is what anybody who
// knows the trade reads there: common practice, no source.
import { describe, expect, it } from 'vitest';
import { columnsByContent } from '../../../../src/core/schedule/byContent/columnsByContent.ts';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../../src/core/schedule/rows/readTypes.ts';
import { redline } from '../../../../src/core/schedule/sheets/redline.ts';

const sheet = (...lines: string[]): Table => ({
  name: 'Sheet',
  rows: lines.map((line) => line.split('|').map((cell) => cell.trim())),
});

const meanings = (table: Table) => Object.fromEntries(columnsByContent(table)?.at ?? []);

function read(table: Table) {
  const got = readTables([table], { name: 'x' });
  if (got.type !== 'plan') throw new Error(got.why);
  const cables = got.plan.cables.map(({ label, ends }) => [label, ...ends.map(({ place }) => place)]);
  return { ...got, cables };
}

const ROWS = [
  '1001|AIO21|OUT 1|SW1|P01|Enet|4 m',
  '1002|AIO21|OUT 2|SW1|P02|Enet|4 m',
  '1003|MIO31|OUT 1|CON30|IN 5|AES|12 m',
  '1004|MIO31|OUT 2|CON30|IN 6|AES|12 m',
];
const AS = { number: 0, fromUnit: 1, fromJack: 2, toUnit: 3, toJack: 4, signal: 5, length: 6 };

describe('columns whose titles say nothing', () => {
  it.each([
    ['nonsense', 'Aha|Bor|Cil|Dap|Ezo|Fum|Gix'],
    ['a language that nobody here reads', 'Kaapeli|Lähde|Liitin|Kohde|Liitin|Laji|Pituus'],
    ['a title of another trade', 'Part|Leaves|Hole|Arrives|Hole|Kind|How long'],
  ])('%s', (_, titles) => {
    expect(meanings(sheet(titles, ...ROWS))).toEqual(AS);
  });

  it('no titles at all: the first row is a cable', () => {
    const got = read(sheet(...ROWS));
    expect(got.cables[0]).toEqual(['1001', 'AIO21/OUT-1', 'SW1/P01']);
    expect(got.cables).toHaveLength(4);
    expect(got.counts.lists[0]).toMatchObject({ kind: 'cables', rows: 4 });
  });

  it('below a title and merged group titles', () => {
    const got = columnsByContent(
      sheet('Verbindungen Regie', '', '|FROM||TO|||', 'Aha|Bor|Cil|Bor|Cil|Fum|Gix', ...ROWS),
    );
    expect(got?.header).toBe(3);
    expect(got?.titles.slice(0, 5)).toEqual(['Aha', 'FROM Bor', 'FROM Cil', 'TO Bor', 'TO Cil']);
    expect(Object.fromEntries(got?.at ?? [])).toEqual(AS);
  });

  it('racks or rooms in front of the units, the same place always beside the same unit', () => {
    const got = meanings(
      sheet(
        'Aha|Bor|Cil|Dap|Ezo|Fum|Gix',
        'K101|R1|SW1|P01|STA|CON30|NET',
        'K102|R1|SW1|P02|STA|CON30|AUX',
        'K103|R2|SW2|P01|STB|CON31|NET',
        'K104|R2|SW2|P02|STB|CON31|AUX',
      ),
    );
    expect(got).toMatchObject({ fromUnit: 2, fromJack: 3, toUnit: 5, toJack: 6 });
    expect([got['fromRack'] ?? got['fromLocation'], got['toRack'] ?? got['toLocation']]).toEqual([1, 4]);
  });

  it('are one guess each, never one for a cell', () => {
    const { guesses, questions } = read(sheet('Aha|Bor|Cil|Dap|Ezo|Fum|Gix', ...ROWS));
    expect(questions).toEqual([]);
    expect(guesses.filter(({ kind }) => kind === 'column-inferred')).toMatchObject(
      ['Aha', 'Bor', 'Cil', 'Dap', 'Ezo', 'Fum', 'Gix'].map((said) => ({ row: 1, column: said, said })),
    );
  });
});

describe('columns that the titles leave open', () => {
  it('jacks beside the units that are named', () => {
    expect(meanings(sheet('Cable|From|Hole|To|Hole|Sort|Span', ...ROWS))).toMatchObject({
      from: 1,
      fromJack: 2,
      to: 3,
      toJack: 4,
      signal: 5,
      length: 6,
    });
  });

  it('a count of the rows is not the number where another column is one', () => {
    const rows = ROWS.map((row, i) => `${i + 1}|${row.replace(/^/, 'A-')}`);
    const got = meanings(sheet('No|Marker|From|From Jack|To|To Jack|Signal|Length', ...rows));
    expect(got).toMatchObject({ number: 1, from: 2 });
  });

  it('a count of the rows stays the number where there is no other', () => {
    const rows = ROWS.map((row, i) => row.replace(/^\d+/, String(i + 1)));
    expect(meanings(sheet('No|From|From Jack|To|To Jack|Signal|Length', ...rows))).toMatchObject({ number: 0 });
  });

  it('jacks that stand away from their units are asked about', () => {
    const got = read(
      sheet(
        'Cable|From|To|Alpha|Beta',
        '1|AIO21|SW1|OUT 1|P01',
        '2|AIO21|SW1|OUT 2|P02',
        '3|AIO22|SW1|OUT 1|P03',
        '4|AIO22|SW1|OUT 2|P04',
      ),
    );
    expect(got.questions.map(({ kind, column, question }) => [kind, column, question])).toEqual([
      ['column', 'Alpha', 'Is this column From jack?'],
      ['column', 'Beta', 'Is this column To jack?'],
    ]);
  });
});

describe('what is no list of cables', () => {
  it.each([
    ['a shopping list', ['milk|2|fresh', 'eggs|12|brown', 'bread|1|dark', 'jam|3|red']],
    ['people and numbers', ['J. Doe|101|day', 'M. Kay|102|night', 'P. Ess|103|day', 'A. Nom|104|night']],
    ['a plan of days', ['2019-03-12|Studio A|paint', '2019-03-13|Studio B|paint', '2019-03-14|Studio C|floor']],
  ])('%s', (_, rows) => {
    expect(columnsByContent(sheet(...rows))).toBeNull();
  });
});

describe('numbers in a column that is not read', () => {
  const HEAD = 'Cable|From|From Jack|To|To Jack|Store';
  const rows = ['1|A1|1|B1|1|88120', '2|A1|2|B1|2|88121', '3|A1|3|B1|3|88122', '4|A1|4|B1|4|88123'];

  it('are asked about once, until somebody says what the column is', () => {
    const table = sheet(HEAD, ...rows);
    expect(read(table).questions).toMatchObject([{ kind: 'column', row: 1, column: 'Store', said: 'Store' }]);
    const cells = [{ sheet: 'Sheet', column: 6, row: 1, said: 'Store', as: 'literal' as const, text: '' }];
    const settled = readTables([table], { name: 'x', answers: { mappings: [], cells } });
    expect(settled.type === 'plan' && settled.questions).toEqual([]);
  });

  it('dates, counts of the rows and words are left out with a guess', () => {
    const others = rows.map((row, i) =>
      row.replace(/\d+$/, ['2019-04-02', '2019-04-03', '2019-04-04', '2019-04-05'][i]!),
    );
    expect(read(sheet(HEAD, ...others)).questions).toEqual([]);
    const counted = rows.map((row, i) => `A-10${i}${row.slice(1).replace(/\d+$/, String(i + 1))}`);
    expect(read(sheet(HEAD, ...counted)).questions).toEqual([]);
  });
});

describe('a sheet without titles', () => {
  it('is read with columns that a person names, from its first row on', () => {
    const mapping = {
      sheet: 'Sheet',
      kind: 'cables' as const,
      headerRow: 0,
      columns: [
        { column: 1, meaning: 'number' },
        { column: 2, meaning: 'toUnit' },
        { column: 3, meaning: 'toJack' },
        { column: 4, meaning: 'fromUnit' },
        { column: 5, meaning: 'fromJack' },
      ],
    };
    const got = readTables([sheet(...ROWS)], { name: 'x', answers: { mappings: [mapping], cells: [] } });
    if (got.type !== 'plan') throw new Error(got.why);
    expect(got.plan.cables.map(({ label, ends }) => [label, ...ends.map(({ place }) => place)])[0]).toEqual([
      '1001',
      'SW1/P01',
      'AIO21/OUT-1',
    ]);
    expect(got.plan.cables).toHaveLength(4);
  });

  it('is given back with an amendment in its own cell', () => {
    const tables = [sheet(...ROWS)];
    const { plan } = read(tables[0]!);
    const amended = {
      ...plan,
      cables: plan.cables.map((cable) => (cable.label === '1002' ? { ...cable, length: '9 m' } : cable)),
    };
    const back = redline(amended, tables);
    expect(back?.form).toBe('source');
    expect(back?.tables[0]?.rows[1]?.slice(0, 7)).toEqual(['1002', 'AIO21', 'OUT 2', 'SW1', 'P02', 'Enet', '9 m']);
    expect(back?.tables[0]?.rows[0]?.slice(0, 7)).toEqual(ROWS[0]!.split('|'));
  });
});

describe('other lists', () => {
  it('of the file say which names are units, where these look like nothing', () => {
    const units = { ...sheet('Unit|Rack|U', 'A|R1|1', 'B|R1|2', 'C|R1|3'), name: 'Units' };
    const cables = sheet('Aha|Bor|Cil|Dap|Ezo', '101|A|x1|B|y1', '102|A|x2|B|y2', '103|A|x3|C|y1', '104|B|x1|C|y2');
    const alone = readTables([cables], { name: 'x' });
    expect(alone.type).toBe('not-a-schedule');
    const got = readTables([units, cables], { name: 'x' });
    if (got.type !== 'plan') throw new Error(got.why);
    expect(got.plan.cables.map(({ label, ends }) => [label, ...ends.map(({ place }) => place)])[2]).toEqual([
      '103',
      'A/X3',
      'C/Y1',
    ]);
  });

  it('a list of units or jacks with a cable and a far end in each row is a list of cables', () => {
    expect(
      meanings(
        sheet(
          'Cable|Device|NIC|IP Address|Switch|Port',
          '9001|AIO21|1|192.0.2.21|SW1|7',
          '9002|AIO22|1|192.0.2.22|SW1|8',
          '9003|CON30|1|192.0.2.30|SW1|9',
          '9004|CON30|2|192.0.2.31|SW2|9',
        ),
      ),
    ).toMatchObject({ number: 0, fromUnit: 1, fromJack: 2, toUnit: 4, toJack: 5 });
  });

  it('lists of units and of jacks stay what they are', () => {
    const units = sheet('Unit|Maker|Model|Rack|U', 'SW1|Acme|S24|R1|40', 'SW2|Acme|S24|R1|39', 'CON1|Bolt|C9|R2|10');
    expect(columnsByContent(units)?.kind).toBe('units');
    const jacks = sheet(
      'Unit|Jack|Connector|Cable|Owner',
      'SW1|1|RJ45|101|JD',
      'SW1|2|RJ45|102|MK',
      'SW1|3|RJ45|103|JD',
    );
    expect(columnsByContent(jacks)?.kind).toBe('jacks');
  });
});

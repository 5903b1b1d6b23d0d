// What one row of a list stands for. The sheets are invented; that stations keep such lists is common practice, no source.
import { describe, expect, it } from 'vitest';
import { readTables } from '../../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../../src/core/schedule/rows/readTypes.ts';
import { columnsOf, NO_ANSWERS, withMapping } from '../../../../src/core/schedule/sheetAnswers.ts';

const toTable = (rows: string, name = 'Runs'): Table => ({
  name,
  rows: rows
    .trim()
    .split('\n')
    .map((line) => line.split('|').map((cell) => cell.trim())),
});

function read(rows: string | Table | Table[], answers = NO_ANSWERS) {
  const tables = typeof rows === 'string' ? [toTable(rows)] : [rows].flat();
  const result = readTables(tables, { name: 'x', answers });
  if (result.type !== 'plan') throw new Error(result.why);
  const { plan, guesses, questions, counts } = result;
  const runs = plan.cables.map(({ label, ends }) =>
    [label, ends.map(({ unit, jack, place }) => `${unit} ${jack}${place === null ? '?' : ''}`.trim()).join(' > ')].join(
      ': ',
    ),
  );
  const shapes = guesses.filter(({ kind }) => kind === 'row-shape');
  return { plan, runs, shapes, questions, guesses, counts };
}

const kinds = (rows: string, name?: string) =>
  (columnsOf(toTable(rows, name), undefined)?.shapes ?? []).map(({ kind }) => kind);

describe('panels between two units in one row', () => {
  const CHAIN = `
Cable | Source | Port | Panel | Port | Panel | Port | Destination | Port | Notes
3201 | SRV1 | ETH0 | PNL A | 1 | PNL B | 1 | SW1 | P01 | not on air
3202 | SRV2 | ETH0 | PNL A | 2 | | | SW1 | P02 |
3203 | SRV3 | ETH0 | | | | | SW1 | P03 |`;

  it('are a chain of cables with one number, through the same jack of each panel', () => {
    const { runs, plan, shapes } = read(CHAIN);
    expect(runs).toEqual([
      '3201: SRV1 ETH0 > PNL A 1',
      '3201: PNL A 1 > PNL B 1',
      '3201: PNL B 1 > SW1 P01',
      '3202: SRV2 ETH0 > PNL A 2',
      '3202: PNL A 2 > SW1 P02',
      '3203: SRV3 ETH0 > SW1 P03',
    ]);
    expect(plan.cables.map(({ circuit, notes }) => [circuit, notes?.split('; ').at(-1)])).toEqual([
      ['3201', 'hop 1 of 3'],
      ['3201', 'hop 2 of 3'],
      ['3201', 'hop 3 of 3'],
      ['3202', 'hop 1 of 2'],
      ['3202', 'hop 2 of 2'],
      [undefined, undefined],
    ]);
    expect(plan.cables.map(({ origin }) => origin?.row)).toEqual([2, 2, 2, 3, 3, 4]);
    expect(shapes).toHaveLength(1);
    expect(shapes[0]).toMatchObject({
      row: 1,
      readAs: expect.stringContaining('SRV1 ETH0 → PNL A 1 → PNL B 1 → SW1 P01'),
    });
  });

  it('are panels in the plan, so that a cable on either side of a hole and one number on several hops are no contradiction', () => {
    const { plan } = read(CHAIN);
    expect(plan.units.filter(({ form }) => form === 'panel').map(({ label }) => label)).toEqual(['PNL A', 'PNL B']);
    expect(plan.contradictions).toEqual([]);
  });

  it('are one where nobody numbered the cables, and the number is asked for', () => {
    const { runs, questions } = read(`
Unit | Port | Panel | Port | Panel | Port | Unit | Port
SRV1 | ETH0 | PP1 | 1 | PP2 | 1 | SW1 | 1
SRV2 | ETH0 | PP1 | 2 | PP2 | 2 | SW1 | 2`);
    expect(runs).toEqual([
      ': SRV1 ETH0 > PP1 1',
      ': PP1 1 > PP2 1',
      ': PP2 1 > SW1 1',
      ': SRV2 ETH0 > PP1 2',
      ': PP1 2 > PP2 2',
      ': PP2 2 > SW1 2',
    ]);
    expect(questions.map(({ kind, row }) => [kind, row])).toEqual([
      ['number', 2],
      ['number', 3],
    ]);
  });

  it('say once what the row says of all its hops', () => {
    const { guesses } = read(CHAIN);
    expect(guesses.filter(({ row, kind }) => row === 2 && kind === 'on-air').length).toBeLessThanOrEqual(1);
  });

  it('have numbers of their own where each hop has a column for it', () => {
    const { runs, plan } = read(`
Cable | From | Jack | Cable | Panel | Jack | Cable | To | Jack | Wire
A1 | MIC1 | OUT | | PP1 | 4 | A2 | PRE1 | 1 |
A3 | MIC2 | OUT | | PP1 | 5 | A4 | PRE1 | 2 |`);
    expect(plan.units.map(({ label }) => label)).toContain('PP1');
    expect(runs[0]).toBe('A1: MIC1 OUT > PP1 4');
  });

  it('stay a note where the panel has no jack', () => {
    const { runs, plan } = read(`
Cable | From | From Jack | Panel | To | To Jack
1 | MIC1 | OUT | PP1 | PRE1 | 1`);
    expect(runs).toEqual(['1: MIC1 OUT > PRE1 1']);
    expect(plan.cables[0]?.notes).toBe('via PP1');
  });

  it('are asked about where nothing tells a chain from a fan, and a person’s columns settle it', () => {
    const rows = `
Cable | Unit | Port | Unit | Port | Unit | Port
1 | DA1 | OUT 1 | AIO21 | REF | AIO22 | REF
2 | DA1 | OUT 2 | AIO23 | REF | AIO24 | REF`;
    const { questions, runs } = read(rows);
    expect(questions.filter(({ kind }) => kind === 'row-shape')).toHaveLength(1);
    expect(questions.find(({ kind }) => kind === 'row-shape')).toMatchObject({
      row: 1,
      question: expect.stringMatching(/AIO21 REF → AIO22 REF.*or is .*AIO21 REF, AIO22 REF/),
    });
    expect(runs).toHaveLength(4);
    const other = columnsOf(toTable(rows), undefined)?.asked;
    const columns = [...(other?.at ?? [])].map(([meaning, column]) => ({ column: column + 1, meaning }));
    const answers = withMapping(NO_ANSWERS, 'Runs', { sheet: 'Runs', kind: 'cables', headerRow: 1, columns });
    const settled = read(rows, answers);
    expect(settled.runs).toEqual(['1: DA1 OUT 1 > AIO21 REF > AIO22 REF', '2: DA1 OUT 2 > AIO23 REF > AIO24 REF']);
    expect(settled.questions).toEqual([]);
  });
});

describe('several far ends', () => {
  it('are ends of one cable, as many as the row names', () => {
    const { runs, questions, shapes } = read(`
Cable | From | Jack | To 1 | Jack | To 2 | Jack | To 3 | Jack
3301 | DA1 | OUT 1 | CON30 | REF | AIO21 | REF | AIO22 | REF
3302 | DA1 | OUT 2 | CON31 | REF | AIO23 | REF | |
3303 | DA1 | OUT 3 | CON32 | REF | | | |`);
    expect(runs).toEqual([
      '3301: DA1 OUT 1 > CON30 REF > AIO21 REF > AIO22 REF',
      '3302: DA1 OUT 2 > CON31 REF > AIO23 REF',
      '3303: DA1 OUT 3 > CON32 REF',
    ]);
    expect(questions).toEqual([]);
    expect(shapes).toHaveLength(1);
  });
});

describe('one row per end', () => {
  it('joins two rows of one number, A first, with what either says', () => {
    const { runs, plan, shapes, questions } = read(`
Cable | End | Unit | Jack | Rack | Length
3001 | B | CON30 | IN 1 | R5 |
3001 | A | AIO21 | OUT 1 | R2 | 12 m
3002 | A | AIO21 | OUT 2 | R2 | 12 m
3002 | B | CON30 | IN 2 | R5 | 12 m`);
    expect(runs).toEqual(['3001: AIO21 OUT 1 > CON30 IN 1', '3002: AIO21 OUT 2 > CON30 IN 2']);
    expect(plan.cables.map(({ length }) => length)).toEqual(['12 m', '12 m']);
    expect(plan.units.map(({ label, rack }) => [label, rack])).toEqual([
      ['AIO21', 'R2'],
      ['CON30', 'R5'],
    ]);
    expect(shapes).toHaveLength(1);
    expect(questions).toEqual([]);
  });

  it('takes the letter of the end off the number', () => {
    const { runs } = read(`
Label | Equipment | Port
3101-A | SW1 | P01
3101-B | AIO21 | NET
3102-A | SW1 | P02
3102-B | AIO22 | NET`);
    expect(runs).toEqual(['3101: SW1 P01 > AIO21 NET', '3102: SW1 P02 > AIO22 NET']);
  });

  it('asks where an end is alone, where there are three, and where two rows differ', () => {
    const { questions } = read(`
Cable | Unit | Jack | Length
1 | A1 | 1 | 3 m
1 | B1 | 1 | 4 m
2 | A1 | 2 |
2 | B1 | 2 |
3 | A1 | 3 |
3 | B1 | 3 |
3 | C1 | 3 |
4 | A1 | 4 |
5 | A1 | 5 |
5 | B1 | 5 |`);
    expect(questions.map(({ kind, said }) => [kind, said])).toEqual([
      ['which-is-right', '4 m'],
      ['several', '3'],
      ['end', '4'],
    ]);
  });

  it('is no list of jacks with a cable behind each', () => {
    expect(
      kinds(
        'Unit | Jack | Cable | Direction\nPP1 | 1 | 101 | in\nPP2 | 1 | 101 | in\nPP1 | 2 | 102 | in\nPP2 | 2 | 102 | in',
      ),
    ).toEqual([]);
  });
});

describe('conductors, pairs and numbers under a mother', () => {
  it('are parts of one cable, which its number on several rows does not contradict', () => {
    const { plan, shapes } = read(`
Cable | Core | From | Terminal | To | Terminal
K1 | 1 | GPIO1 | 1 | CON30 | 11
K1 | 2 | GPIO1 | 2 | CON30 | 12
K2 | 1 | GPIO1 | 7 | LAMP1 | A`);
    expect(plan.cables.map(({ label, notes }) => `${label} ${notes}`)).toEqual(['K1 core 1', 'K1 core 2', 'K2 core 1']);
    expect(plan.contradictions).toEqual([]);
    expect(shapes).toMatchObject([{ readAs: expect.stringContaining('one core of a cable') }]);
  });

  it('count under the row above', () => {
    const { runs, shapes } = read(`
Cable | From | From Jack | To | To Jack
L7 | FRM1 | D-SUB A | PP1 | 1
.1 | FRM1 | D-SUB A-1 | CON30 | IN 1
.2 | FRM1 | D-SUB A-2 | CON30 | IN 2
L8 | FRM1 | D-SUB B | PP1 | 2
.1 | FRM1 | D-SUB B-1 | CON30 | IN 3`);
    expect(runs.map((run) => run.split(':')[0])).toEqual(['L7', 'L7.1', 'L7.2', 'L8', 'L8.1']);
    expect(shapes).toMatchObject([{ row: 1, readAs: expect.stringContaining('.1 → L7.1') }]);
  });

  it('take the number of the multicore that has a row of its own, and fill it down where it has none', () => {
    const rows = (mother: string) => `
Cable | Pair | From | From Jack | To | To Jack
${mother}
 | 2 | BOX1 | 2 | CON30 | MIC 2
 | 3 | BOX1 | 3 | CON30 | MIC 3`;
    expect(read(rows('M12 | | BOX1 | X | CON30 | Y')).runs.map((run) => run.split(':')[0])).toEqual([
      'M12',
      'M12-2',
      'M12-3',
    ]);
    const filled = read(rows('M12 | 1 | BOX1 | 1 | CON30 | MIC 1'));
    expect(filled.runs.map((run) => run.split(':')[0])).toEqual(['M12', '', '']);
    expect(filled.questions.filter(({ kind }) => kind === 'number')).toHaveLength(2);
  });
});

describe('stereo pairs', () => {
  it('are a left and a right cable, each with its own jacks', () => {
    const { runs, shapes } = read(`
Cable | From | From Jack | To | To Jack
S103-L/R | PLY3 | OUT L/R | CON30 | IN 3 L/R
S104-L/R | PLY4 | L/R | CON30 | IN 4 L/R`);
    expect(runs).toEqual([
      'S103-L: PLY3 OUT L > CON30 IN 3 L',
      'S103-R: PLY3 OUT R > CON30 IN 3 R',
      'S104-L: PLY4 L > CON30 IN 4 L',
      'S104-R: PLY4 R > CON30 IN 4 R',
    ]);
    expect(shapes).toMatchObject([{ readAs: expect.stringContaining('a left and a right cable') }]);
  });
});

describe('card slots', () => {
  it('are part of the name of the jack, in words where the cells are figures', () => {
    const { runs, shapes } = read(`
Cable | From | Slot | Port | To | To Jack
5001 | FRM1 | 3 | 1 | CON30 | IN 1
5002 | FRM1 | 4 | 1 | CON30 | IN 2
5003 | FRM1 | S5 | OUT 2 | CON30 | IN 3`);
    expect(runs).toEqual([
      '5001: FRM1 Slot 3 Port 1 > CON30 IN 1',
      '5002: FRM1 Slot 4 Port 1 > CON30 IN 2',
      '5003: FRM1 S5 OUT 2 > CON30 IN 3',
    ]);
    expect(shapes).toHaveLength(1);
  });

  it('are a U where a rack stands on that side', () => {
    const { plan } = read(`
Cable | From Rack | From Slot | From Unit | From Jack | To Unit | To Jack
1 | R1 | 12 | SW1 | 1 | SW2 | 1`);
    expect(plan.units[0]).toMatchObject({ label: 'SW1', rack: 'R1', u: 12 });
  });
});

describe('lists beside each other', () => {
  const ROWS = `
STUDIO A | | | | | | STUDIO B | | | |
Cable | From | Jack | To | Jack | | Cable | From | Jack | To | Jack
A1 | MIC1 | XLR | PRE1 | 1 | | B1 | MIC5 | XLR | PRE2 | 1
A2 | MIC2 | XLR | PRE1 | 2 | | B2 | MIC6 | XLR | PRE2 | TBD
A3 | MIC3 | XLR | PRE1 | 3 | | | | | |`;

  it('are read as two, with the rows and columns of the sheet', () => {
    const { plan, runs, questions, shapes, counts } = read(ROWS);
    expect(runs).toEqual([
      'A1: MIC1 XLR > PRE1 1',
      'A2: MIC2 XLR > PRE1 2',
      'A3: MIC3 XLR > PRE1 3',
      'B1: MIC5 XLR > PRE2 1',
      'B2: MIC6 XLR > PRE2 TBD?',
    ]);
    expect(plan.cables.map(({ origin }) => origin?.row)).toEqual([3, 4, 5, 3, 4]);
    expect(questions).toMatchObject([{ row: 4, column: 'Jack', said: 'TBD' }]);
    expect(shapes).toHaveLength(2);
    expect(counts.lists.map(({ headerRow }) => headerRow)).toEqual([2, 2]);
  });

  it('take an answer in their own columns alone', () => {
    const answers = {
      ...NO_ANSWERS,
      cells: [{ sheet: 'Runs', column: 11, row: 4, said: 'TBD', as: 'typed' as const, text: '9' }],
    };
    const { runs, questions } = read(ROWS, answers);
    expect(runs.at(-1)).toBe('B2: MIC6 XLR > PRE2 9');
    expect(runs[1]).toBe('A2: MIC2 XLR > PRE1 2');
    expect(questions).toEqual([]);
  });

  it('of different kinds need a blank column between them', () => {
    const both = read(`
Cable | From | From Jack | To | To Jack | | Unit | Rack | U
1 | SW1 | 1 | SW2 | 1 | | SW1 | R1 | 12
2 | SW1 | 2 | SW2 | 2 | | SW2 | R1 | 14`);
    expect(both.counts.lists.map(({ kind }) => kind)).toEqual(['units', 'cables']);
    const blank = read(`
Cable | From | From Jack | | To | To Jack
1 | SW1 | 1 | | SW2 | 1`);
    expect(blank.runs).toEqual(['1: SW1 1 > SW2 1']);
  });
});

describe('blocks and bays', () => {
  it('are lists of cables where each jack names the far end: the unit out of the title or the sheet’s name', () => {
    const { runs, plan, shapes } = read(
      toTable(
        `
Jack | Designation | Rear cable | Rear goes to | Normalled to
A1 | PLY1 L | 6001 | PLY1 OUT L | B1
B1 | CON30 1L | 6011 | CON30 IN 1 | A1
B2 | | | |`,
        'Patch bay PB1',
      ),
    );
    expect(runs).toEqual(['6001: PB1 A1 > PLY1 OUT L', '6011: PB1 B1 > CON30 IN 1']);
    expect(plan.cables[0]?.notes).toBe('strip PLY1 L; normalled to B1');
    expect(shapes.map(({ readAs }) => readAs.split(':')[0])).toEqual([
      'each row is a jack with the cable at it',
      'PB1, for all rows of this list, since its title says so',
    ]);
  });

  it('have a cable on each side of a jack', () => {
    const { runs } = read(
      toTable(
        `
Pair | House cable | House from | Jumper cable | Jumper to
1 | 7101 | STA1 1 | J1 | HYB41 LINE
2 | 7102 | STA1 2 | |`,
        'BLK3',
      ),
    );
    expect(runs).toEqual([
      '7101: BLK3 1 house > STA1 1',
      'J1: BLK3 1 jumper > HYB41 LINE',
      '7102: BLK3 2 house > STA1 2',
    ]);
  });

  it('name a row and a pair for one end of each cable, with the colours kept', () => {
    const { runs, plan } = read(`
Cable | From Unit | From Jack | Block | Row | Pair | Tip | Ring
7001 | RMT1 | 1 | BLK2 | 1 | 1 | white/blue | blue/white
7002 | RMT1 | 2 | BLK2 | 1 | 2 | white/orange | orange/white`);
    expect(runs).toEqual(['7001: RMT1 1 > BLK2 1 1', '7002: RMT1 2 > BLK2 1 2']);
    expect(plan.cables[0]?.notes).toContain('tip white/blue; ring blue/white');
  });
});

describe('what the sheet’s name says', () => {
  const rows = 'Cable | From | From Jack | To | To Jack\nN1 | SW1 | P01 | AIO21 | NET';

  it('is the type of cable of a list per type', () => {
    const { plan, shapes } = read([
      toTable(rows, 'Cat6'),
      toTable(rows.replace('N1', 'D1').replaceAll('P01', 'P02').replace('NET', 'AES'), '110R AES'),
    ]);
    expect(plan.cables.map(({ type }) => type)).toEqual(['Cat6', '110R AES']);
    expect(shapes.map(({ said }) => said)).toEqual(['Cat6', '110R AES']);
  });

  it('is nothing where a column says it or the name is no type', () => {
    expect(kinds(rows, 'Studio 2')).toEqual([]);
    expect(kinds(rows.replace('To Jack', 'To Jack | Type').replace('NET', 'NET | quad'), 'Cat6')).toEqual([]);
  });
});

describe('words around a name', () => {
  it('that say what a title lists are no part of the unit', () => {
    const { runs } = read(`
Switch SW1 - port list
Port | Connected to | Cable
1 | FRAME1 NET | W1
2 | FRAME2 NET | W2`);
    expect(runs).toEqual(['W1: SW1 1 > FRAME1 NET', 'W2: SW1 2 > FRAME2 NET']);
  });

  it('that say in which slot a jack is stay in its name', () => {
    const { runs } = read(`
Cable | From Unit | From Jack | To Unit | To Jack
C10 | FRM1 | Slot 3/Out 1 | FRM2 | Card 2/In 1`);
    expect(runs).toEqual(['C10: FRM1 Slot 3/Out 1 > FRM2 Card 2/In 1']);
  });

  it('that number the pins of a cable make a row of each, told once', () => {
    const { plan, shapes } = read(`
Cable | Pin | From Unit | From Jack | To Unit | To Jack
M1 | 1 | XLR1 | pin 1 | J1 | shield
M1 | 2 | XLR1 | pin 2 | J1 | tip`);
    expect(plan.cables.map(({ notes }) => notes)).toEqual(['pin 1', 'pin 2']);
    expect(shapes).toHaveLength(1);
  });
});

// Reading of schedules, on invented sheets. The habits are common practice of radio stations, no published source.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planSchema } from '../../../src/core/plan/model.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';

const sheet = (text: string, name = 'Sheet'): Table => ({
  name,
  rows: text.split('\n').map((line) => line.split('|').map((cell) => cell.trim())),
});

function plan(...tables: Table[]) {
  const read = readTables(tables, { name: 'test' });
  if (read.type !== 'plan') throw new Error(read.why);
  return read;
}

const HEAD = 'Cable|From|From Jack|To|To Jack|Notes';

describe('finding the lists', () => {
  it('finds the header below a title, a legend and a blank row', () => {
    const read = plan(sheet(`RUN LIST rev C\nblue = network\n\n${HEAD}\n1|R1 A|O1|R1 B|I1|`));
    expect(read.counts.lists).toEqual([{ sheet: 'Sheet', kind: 'cables', headerRow: 4, rows: 1 }]);
    expect(read.plan.cables[0]?.origin).toEqual({ sheet: 'Sheet', row: 5 });
  });

  it.each([
    ['Cable No.|Source Equip|Source Port|Dest Equip|Dest Port'],
    ['CBL #|From Equip|From Conn|To Equip|To Conn'],
    ['Wire No|A-End Equipment|A-End Port|B-End Equipment|B-End Port'],
    ['N° câble|From Dévice|From Jack|TO DEVICE|to jack'],
    ['Tag|Unit A|Jack A|Unit B|Jack B'],
  ])('reads the header %s', (header) => {
    const read = plan(sheet(`${header}\n0012|SW1|P01|SW2|P02`));
    expect(read.plan.cables[0]).toMatchObject({ id: '0012', label: '0012' });
    expect(read.plan.cables[0]?.ends.map((end) => end.place)).toEqual(['SW1/P01', 'SW2/P02']);
  });

  it('reads two header rows as one', () => {
    const read = plan(sheet('|From|||To||\nCable No|Rack|Unit|Jack|Rack|Unit|Jack\n7|R1|SW1|P01|R2|SW2|P02'));
    expect(read.plan.cables[0]?.ends.map((end) => end.place)).toEqual(['SW1/P01', 'SW2/P02']);
    expect(read.plan.units.map((unit) => unit.rack)).toEqual(['R1', 'R2']);
  });

  it('takes room, rack and U from columns of their own', () => {
    const head = 'Cable,From Room,From Rack,From U,From Unit,From Jack,To Room,To Rack,To U,To Unit,To Jack'.replaceAll(
      ',',
      '|',
    );
    const read = plan(sheet(`${head}\n7|Tech|R1|40|SW1|P01|Studio A|||CON30|NET`));
    expect(read.plan.racks).toMatchObject([{ id: 'R1', room: 'Tech', implied: true }]);
    expect(read.plan.units).toMatchObject([
      { id: 'SW1', rack: 'R1', u: 40, implied: true },
      { id: 'CON30', room: 'Studio A', implied: true },
    ]);
  });

  it('says why a sheet is no schedule and what to do', () => {
    expect(readTables([sheet('milk|eggs\n2|12')], { name: 'x' })).toMatchObject({
      type: 'not-a-schedule',
      where: { sheet: 'Sheet', row: 1 },
    });
    expect(readTables([], { name: 'x' })).toMatchObject({ type: 'not-a-schedule', where: null });
  });

  it('leaves out headers that every printed page repeats', () => {
    const read = plan(sheet(`${HEAD}\n1|A|O1|B|I1|\n${HEAD}\n2|A|O2|B|I2|`));
    expect(read.plan.cables.map((cable) => cable.label)).toEqual(['1', '2']);
  });

  it('is not harmed by headers named after parts of a prototype', () => {
    const read = plan(sheet(`__proto__|constructor|${HEAD}\nx|y|__proto__|R1 constructor|O1|R1 toString|I1|`));
    expect(read.plan.cables[0]?.label).toBe('__proto__');
    expect(read.plan.cables[0]?.ends.map((end) => end.place)).toEqual(['CONSTRUCTOR/O1', 'TOSTRING/I1']);
    expect(({} as Record<string, unknown>).x).toBeUndefined();
  });
});

describe('numbers', () => {
  it('keeps 0101 and 101 apart, and numbers that repeat or are blank', () => {
    const read = plan(sheet(`${HEAD}\n0101|A|1|B|1|\n101|A|2|B|2|\n101|A|3|B|3|\n|A|4|B|4|\n|A|5|B|5|`));
    expect(read.plan.cables.map((cable) => cable.id)).toEqual(['0101', '101', '101~2', '~2', '~3']);
    expect(read.plan.contradictions.map((one) => [one.type, one.cables])).toEqual([
      ['number-repeated', ['101', '101~2']],
    ]);
  });

  it('does not take a name with a dash for a range when the jacks do not agree', () => {
    const read = plan(sheet(`${HEAD}\n10-12|A|O1|B|I1|`));
    expect(read.plan.cables.map((cable) => cable.label)).toEqual(['10-12']);
    expect(read.questions).toMatchObject([{ row: 2, said: '10-12' }]);
  });

  it('asks where the other ends go when only one side has a range', () => {
    const read = plan(sheet(`${HEAD}\n1-2|A|O1-O2|B|trunk|`));
    expect(read.plan.cables.map((cable) => cable.ends.map((end) => end.place))).toEqual([
      ['A/O1', null],
      ['A/O2', null],
    ]);
  });

  it('joins a cable that is listed once from each end', () => {
    const read = plan(sheet(`${HEAD}\n1|A|O1|B|I1|\n1|B|I1|A|O1|`));
    expect(read.plan.cables).toHaveLength(1);
    expect(read.guesses.at(-1)).toMatchObject({ row: 3, readAs: 'the same cable seen from its other end' });
  });
});

describe('contradictions', () => {
  const kinds = (text: string) =>
    plan(sheet(`${HEAD}\n${text}`)).plan.contradictions.map((one) => [one.type, one.places]);

  it('finds a jack that two cables claim, unless it is a mult', () => {
    expect(kinds('1|A|O1|B|I1|\n2|A|O2|B|I1|')).toEqual([['jack-claimed-twice', ['B/I1']]]);
    expect(kinds('1|A|O1|B|I1|mult\n2|A|O2|B|I1|mult')).toEqual([]);
  });

  it('finds a cable with both ends in one jack, and one with an end missing', () => {
    expect(kinds('1|A|O1|A|O1|')).toEqual([['both-ends-one-jack', ['A/O1']]]);
    expect(kinds('1|A|O1|?||')).toEqual([['end-missing', ['A/O1']]]);
  });
});

describe('unit lists', () => {
  const UNITS = 'Unit|Room|Rack|U|Height|Jacks|Layout|Jack face|Description|Address|Serial|MAC';
  const units = (...lines: string[]) => plan(sheet([UNITS, ...lines].join('\n'), 'Units'));

  it('takes 24 numbered ports without a layout as odd over even on the front, and says that it guessed', () => {
    const read = units('SW1|Tech|R1|40|1|P01-P24|||network switch|192.0.2.2||');
    const [face] = read.plan.units[0]?.faces ?? [];
    expect(face?.face).toBe('front');
    expect(face?.rows[0]?.slice(0, 3)).toEqual(['SW1/P01', 'SW1/P03', 'SW1/P05']);
    expect(face?.rows[1]?.at(-1)).toBe('SW1/P24');
    expect(read.guesses).toContainEqual(
      expect.objectContaining({ row: 2, readAs: 'odd over even, jacks on the front' }),
    );
    expect(read.plan.settings).toMatchObject([
      { unit: 'SW1', name: 'address', value: '192.0.2.2', origin: { row: 2 } },
    ]);
  });

  it('splits two rows in half in printed order and lists jacks of several kinds', () => {
    const read = units(
      'PB1|Tech|R2|34|2|J1-J8|two rows|front|audio patch bay|||',
      'AIO21|Tech|R2|30|1|I1-I2, O1-O2, NET||||||',
    );
    expect(read.plan.units[0]?.faces[0]).toEqual({
      face: 'front',
      rows: [
        ['PB1/J1', 'PB1/J2', 'PB1/J3', 'PB1/J4'],
        ['PB1/J5', 'PB1/J6', 'PB1/J7', 'PB1/J8'],
      ],
      through: true,
    });
    const aio = read.plan.jacks.filter((jack) => jack.unit === 'AIO21');
    expect(aio.map(({ label, direction, implied }) => [label, direction, implied])).toEqual([
      ['I1', 'in', false],
      ['I2', 'in', false],
      ['O1', 'out', false],
      ['O2', 'out', false],
      ['NET', 'both', false],
    ]);
  });

  it('asks when a cable puts a listed unit into another rack', () => {
    const read = plan(
      sheet(`${UNITS}\nSW1|Tech|R1|40|1|P01-P24|||||`, 'Units'),
      sheet(`${HEAD}\n1|R2 SW1|P01|STA X|NET|`, 'Cables'),
    );
    expect(read.plan.cables[0]?.ends[0]?.place).toBe('SW1/P01');
    expect(read.questions).toMatchObject([{ sheet: 'Cables', row: 2, said: 'R2 SW1' }]);
  });

  it('splits the end at a unit whose name has blanks, once a list knows it', () => {
    const read = plan(
      sheet(`${UNITS}\nTalk box 1|Studio A|||||||||`, 'Units'),
      sheet('Cable|From|To\n1|Studio A Talk box 1 OUT|R1 SW1 P01', 'Cables'),
    );
    expect(read.plan.cables[0]?.ends).toMatchObject([
      { location: 'Studio A', unit: 'Talk box 1', jack: 'OUT', place: 'TALK-BOX-1/OUT' },
      { location: 'R1', unit: 'SW1', jack: 'P01', place: 'SW1/P01' },
    ]);
  });

  it('lets a jack list overrule what labels suggest', () => {
    const read = plan(
      sheet(`${HEAD}\n1|R1 A|O1|R1 B|I1|`),
      sheet('Unit|Jack|Connector|Direction|Signal|Leg|Spare\nB|I1|XLR|out|AES|L|\nB|I2|XLR|in|AES||x', 'Jacks'),
    );
    expect(read.plan.jacks.find((jack) => jack.id === 'B/I1')).toMatchObject({
      connector: 'XLR',
      direction: 'out',
      signal: 'aes3',
      leg: 'left',
      implied: false,
    });
    expect(read.plan.jacks.find((jack) => jack.id === 'B/I2')).toMatchObject({ spare: true });
  });
});

describe('whatever the cells hold', () => {
  const word = fc.oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom(
      'Cable',
      'From',
      'From Jack',
      'To',
      'To Jack',
      'Unit',
      'Jacks',
      '"',
      'same',
      '?',
      '1-3',
      'P01-P24',
      'R1 SW1',
      '__proto__',
      'J1/J2',
      '~',
      '',
    ),
  );

  it('never throws, and what it makes is a plan by its schema with unique ids', () => {
    const rows = fc.array(fc.array(word, { maxLength: 8 }), { maxLength: 12 });
    fc.assert(
      fc.property(rows, (body) => {
        const read = readTables([{ name: 's', rows: [['Cable', 'From', 'From Jack', 'To', 'To Jack'], ...body] }], {
          name: 'x',
        });
        if (read.type !== 'plan') return read.nextStep.length > 0;
        const ids = read.plan.cables.map((cable) => cable.id);
        const placesKnown = read.plan.cables.every((cable) =>
          cable.ends.every((end) => end.place === null || read.plan.jacks.some((jack) => jack.id === end.place)),
        );
        return planSchema.safeParse(read.plan).success && new Set(ids).size === ids.length && placesKnown;
      }),
      { numRuns: 300 },
    );
  });

  it('finds any header or none without throwing', () => {
    fc.assert(
      fc.property(fc.array(fc.array(word, { maxLength: 8 }), { maxLength: 25 }), (rows) => {
        const { type } = readTables([{ name: 's', rows }], { name: 'x' });
        return type === 'plan' || type === 'not-a-schedule';
      }),
    );
  });
});

describe('a long list', () => {
  it('says how far it is, and its rows add up', () => {
    const lines = Array.from({ length: 2_600 }, (_, i) => `${i}|A|O${i}|B|I${i}|`);
    const heard: number[] = [];
    const read = readTables([sheet([HEAD, ...lines].join('\n'))], { name: 'x', told: (rows) => heard.push(rows) });
    expect(heard).toEqual([500, 1000, 1500, 2000, 2500]);
    expect(read).toMatchObject({ counts: { rowsIn: 2_600, used: 2_600, cables: 2_600 } });
  });
});

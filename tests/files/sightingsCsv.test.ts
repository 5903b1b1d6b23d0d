// The sightings list of an invented station: places, states, labels, errors with row and column.
import { describe, expect, it } from 'vitest';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { readSightingsCsv, textToTime } from '../../src/files/sightingsCsv.ts';

const rows = (text: string) => text.split('\n').map((line) => line.split('|'));
const read = readTables(
  [
    {
      name: 'Cables',
      rows: rows('Cable|From|From Jack|To|To Jack\n1003|R1 SW1|P03|STA MIC 1|XLR OUT\n1004|R1 SW1|P04|STA MIC|OUT'),
    },
    { name: 'Units', rows: rows('Unit|Room|Rack|U\nSW1||R1|40\nMIC 1|STA||\nMIC|STA||') },
  ],
  { name: 'x' },
);
if (read.type !== 'plan') throw new Error(read.why);
const { plan } = read;

const HEAD = 'seen_at,by,place,state,label,end,basis,joined_to,note';
function sightings(...lines: string[]) {
  const result = readSightingsCsv(new TextEncoder().encode([HEAD, ...lines].join('\n')), plan);
  if (result.type !== 'sightings') throw new Error(result.type);
  return result;
}
const first = (line: string) => {
  const { sightings: list, errors } = sightings(line);
  expect(errors).toEqual([]);
  const [row] = list;
  if (!row) throw new Error('no row');
  return row;
};

describe('places', () => {
  it.each([
    ['SW1 P03', ['SW1/P03']],
    ['sw1 p03', ['SW1/P03']],
    ['MIC 1 XLR OUT', ['MIC-1/XLR-OUT']],
    ['MIC OUT', ['MIC/OUT']],
    ['SW1 P05..P07', ['SW1/P05', 'SW1/P06', 'SW1/P07']],
    ['P05..SW1 P07', ['SW1/P05', 'SW1/P06', 'SW1/P07']],
    ['SW1 P05..SW1 P06', ['SW1/P05', 'SW1/P06']],
    ['R1 U26', ['@R1/U26']],
    ['loose: tray of R2', ['~TRAY-OF-R2']],
    ['NEW9 J1', ['NEW9/J1']],
  ])('%s', (place, places) => {
    expect(first(`,,${place},empty,,,,,`).payload.places).toEqual(places);
  });

  it('makes one statement of a range, in the words of its jacks', () => {
    expect(first(',,SW1 P05..P06,empty,,,,,').payload).toEqual({
      places: ['SW1/P05', 'SW1/P06'],
      said: ['SW1 P05', 'SW1 P06'],
      state: 'empty',
      plugs: [],
      basis: 'seen',
      by: 'list',
    });
  });
});

describe('labels', () => {
  const labels = (line: string) => first(line).payload.plugs.map((plug) => plug.labels.map((label) => label.text));

  it('keeps several labels on one plug together', () => {
    expect(labels(',,SW1 P03,label,1003 | N-17,,,,')).toEqual([['1003', 'N-17']]);
  });

  it('writes the end letter behind a label that has none of its own', () => {
    expect(labels(',,SW1 P03,label,1003,b,,,')).toEqual([['1003-B']]);
    expect(labels(',,SW1 P03,label,1003-A,B,,,')).toEqual([['1003-A']]);
  });

  it('takes the label of an illegible one as its pattern, and an unlabelled plug as a plug', () => {
    expect(first(',,SW1 P03,illegible,4?0?,,,,').payload.plugs).toEqual([{ labels: [], pattern: '4?0?' }]);
    expect(first(',,SW1 P03,unlabelled,,,,,').payload.plugs).toEqual([{ labels: [] }]);
  });
});

it('keeps author, time with zone, the followed place and the reason of a refusal', () => {
  const row = first('2026-03-07T23:00:00+01:00,A. Walker,SW1 P03,label,1003,,followed,MIC 1 XLR OUT,by tone');
  expect(row).toMatchObject({ row: 2, author: 'A. Walker', at: Date.UTC(2026, 2, 7, 22), zone: 60 });
  expect(row.payload).toMatchObject({ basis: 'followed', joinedTo: 'MIC-1/XLR-OUT', note: 'by tone' });
  expect(first(',,SW1 P03,refused,,,,,needs touch').payload.reason).toBe('needs touch');
});

describe('errors', () => {
  it('names row and column and still gives the other rows', () => {
    const result = sightings(
      ',,SW1 P03,label,1003,,,,',
      ',,SW1 P03,lable,1003,,,,',
      'noon,,SW1 P03,empty,,,,,',
      ',,P03,empty,,,,,',
      ',,SW1 P03..SW2 P04,empty,,,,,',
      ',,SW1 P03,label,,,,,',
      ',,SW1 P03,label,1003,,guessed,,',
      ',,SW1 P03,label,1003,,seen,P1..P4,',
      ',,SW1 P09..P05,empty,,,,,',
      '',
      ',,SW1 P04,label,1004,,,,',
    );
    expect(result.sightings.map((one) => one.row)).toEqual([2, 12]);
    expect(result.errors.map(({ row, column }) => [row, column])).toEqual([
      [3, 'state'],
      [4, 'seen_at'],
      [5, 'place'],
      [6, 'place'],
      [7, 'label'],
      [8, 'basis'],
      [9, 'joined_to'],
      [10, 'place'],
    ]);
  });

  it('says which columns are missing', () => {
    expect(readSightingsCsv(new TextEncoder().encode('a,b\n1,2'), plan)).toEqual({
      type: 'no-header',
      missing: ['place', 'state'],
    });
  });
});

it('reads times of ISO 8601 and no others', () => {
  expect(textToTime('2026-03-07T22:00:00Z')?.at).toBe(Date.UTC(2026, 2, 7, 22));
  expect(textToTime('2026-03-07 22:00-0330')).toEqual({ at: Date.UTC(2026, 2, 8, 1, 30), zone: -210 });
  for (const text of ['3/4/19', '2026-02-30', '2026-13-01', '2026-03-07T25:00Z']) expect(textToTime(text)).toBeNull();
});

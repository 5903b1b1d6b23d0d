// Words in cells that are no names: the same again, not known, free, and what carries the programme. Invented cells;
// the words are common practice in each language, no published source.
import { describe, expect, it } from 'vitest';
import { textToRange } from '../../../src/core/schedule/readCells.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import { isDitto, isSpareWord, isUnknown, saysOnAir, textToStatus } from '../../../src/core/schedule/words.ts';

describe('words for the same again', () => {
  it.each([
    'dito',
    'Ditto',
    'as row above',
    'same as above',
    'see above',
    'same as row above',
    'as previous',
    'wie oben',
    's. o.',
    'siehe Zeile darüber',
    'comme ci-dessus',
    'voir ci-dessus',
    'igual que arriba',
    'come sopra',
    'zie boven',
    'som ovan',
    '\\\\',
    '-"-',
  ])('%s', (word) => expect(isDitto(word)).toBe(true));

  it.each(['SAME1', 'AS1', 'DO1', 'ID', 'DITO2', '-', '/', 'same rack', 'like new'])('%s is a name', (name) =>
    expect(isDitto(name)).toBe(false),
  );
});

describe('words for not known', () => {
  it.each([
    'TBD',
    't.b.c.',
    'to be confirmed',
    'To be advised',
    'see note 3',
    'siehe Anmerkung 2',
    'voir remarque 4',
    'à confirmer',
    'a confirmar',
    'da definire',
    'offen',
    'noch offen',
    'unbekannt',
    'onbekend',
    'n.t.b.',
    'same as 105',
  ])('%s', (word) => expect(isUnknown(word)).toBe(true));

  it.each(['TB1', 'OPEN1', 'NOTE3', 'seed', 'per1', 'VER2', 'A CONF', 'see', 'SEE 2'])('%s is none', (name) =>
    expect(isUnknown(name)).toBe(false),
  );
});

describe('words for free', () => {
  it.each(['frei', 'libre', 'libero', 'vrij', 'Free', 'Reserve', 'réserve', 'ledig', 'not in use', 'n/c'])(
    '%s',
    (word) => {
      expect(isSpareWord(word)).toBe(true);
      expect(textToStatus(word)).toBe('spare');
    },
  );

  it.each(['FREE TO AIR', 'Freie Bühne', 'LIBRE1', 'free run', 'Libero 3'])('%s is a name', (name) => {
    expect(isSpareWord(name)).toBe(false);
    expect(textToStatus(name)).toBeNull();
  });

  it('none of them becomes a unit', () => {
    const words = ['frei', 'libre', 'vrij', 'libero', 'to be confirmed', 'à confirmer', 'offen', 'see note 3'];
    const rows = words.map((word, i) => [String(301 + i), 'PANEL1', String(i + 1), word, '']);
    const read = readTables([{ name: 'A', rows: [['Cable', 'From', 'From Jack', 'To', 'To Jack'], ...rows] }], {
      name: 'a',
    });
    if (read.type !== 'plan') throw new Error(read.why);
    expect(read.plan.units.map(({ label }) => label)).toEqual(['PANEL1']);
    expect(read.plan.cables.map(({ status }) => status)).toEqual([
      ...Array(4).fill('spare'),
      ...Array(4).fill('in-use'),
    ]);
    // Free is a guess with its row; what nobody knows is a question.
    expect(read.guesses.filter(({ kind }) => kind === 'nothing-here').map(({ row }) => row)).toEqual([2, 3, 4, 5]);
    expect(read.questions.filter(({ kind }) => kind === 'end').map(({ row }) => row)).toEqual([6, 7, 8, 9]);
  });
});

describe('on air', () => {
  it.each(['on air', 'On-Air main', 'do not touch'])('%s', (words) => expect(saysOnAir(words)).toBe(true));

  it.each([
    'not on air',
    'never on air, training',
    'no longer on air',
    'NOT ON-AIR',
    'nicht on air',
    'on air: no',
    'not normally on air',
    'on-air light',
    'not hot',
  ])('%s is not', (words) => expect(saysOnAir(words)).toBe(false));

  it('do not touch stays so beside a word that is not about the air', () =>
    expect(saysOnAir('do not touch, not mine')).toBe(true));
});

describe('ranges', () => {
  it.each([
    ['P01…P03', ['P01', 'P02', 'P03']],
    ['301 … 303', ['301', '302', '303']],
    ['IN 1‥2', ['IN 1', 'IN 2']],
    ['1 bis 3', ['1', '2', '3']],
  ])('%s', (text, labels) => expect(textToRange(text)).toEqual(labels));
});

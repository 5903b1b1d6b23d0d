// Rows that may not be there any more: asked about once for each style, never left out and never read as if nothing were
// said. Invented sheets; words and habits are common practice, no published source.
import { describe, expect, it } from 'vitest';
import { withGone, withoutGone } from '../../../src/core/schedule/answers/goneAnswers.ts';
import { saysGone, sheetSaysOld } from '../../../src/core/schedule/goneWords.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { SheetMark, Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { NO_ANSWERS, type SheetAnswers } from '../../../src/core/schedule/sheetAnswers.ts';

const HEAD = ['Cable', 'From', 'From Jack', 'To', 'To Jack'];
const five = (...extra: string[]): string[][] =>
  Array.from({ length: 5 }, (_, i) => [
    String(2001 + i),
    'AIO21',
    `OUT ${i + 1}`,
    'CON30',
    `IN ${i + 1}`,
    ...(extra[i] === undefined ? [] : [extra[i]]),
  ]);
const mark = (type: SheetMark['type'], row: number, said = ''): SheetMark => ({ type, row, column: 1, to: 5, said });
const sheet = (shown: SheetMark[], rows = five(), name = 'Cables'): Table => ({ name, rows: [HEAD, ...rows], shown });

function read(tables: Table[], answers: SheetAnswers = NO_ANSWERS) {
  const result = readTables(tables, { name: 'a', answers });
  if (result.type !== 'plan') throw new Error(result.why);
  const gone = result.questions.filter(({ kind }) => kind === 'gone');
  return { ...result, gone, labels: result.plan.cables.map(({ label }) => label) };
}

describe('words for gone', () => {
  it.each([
    'removed',
    'VOID',
    'dead',
    'deleted 2019',
    'decommissioned',
    'cable cut, dead in duct',
    'entfällt',
    'entfernt 3.5.',
    'supprimé',
    'retirée',
    'verwijderd',
    'no longer in use',
  ])('%s', (text) => expect(saysGone(text)).toBe(true));

  it.each([
    'do not remove!',
    'not removed',
    'to be removed in May',
    'never deleted',
    'nicht entfernt',
    'moved from AMP1',
    'deadline Friday',
    'avoid',
    'OK',
    'removable lid',
  ])('%s is there', (text) => expect(saysGone(text)).toBe(false));

  it('and names of sheets that are kept for the record', () => {
    for (const name of ['OLD - superseded', 'Decommissioned', 'Cables (old)', 'Archiv 2019', 'Alt'])
      expect(sheetSaysOld(name), name).toBe(true);
    for (const name of ['Cables', 'Folded', 'Rack 2', 'Gold', 'Altbau', 'Remote'])
      expect(sheetSaysOld(name), name).toBe(false);
  });
});

describe('each style is asked about once, with its rows', () => {
  it('rows struck through; a row with one struck cell is told of', () => {
    const one: SheetMark = { type: 'struck', row: 5, column: 2, to: 2, said: '' };
    const { gone, guesses, labels, plan } = read([sheet([mark('struck', 3), mark('struck', 4), one])]);
    expect(gone).toMatchObject([
      { row: 3, rows: [3, 4], style: 'struck', question: '2 rows are struck through (rows 3 to 4). Are they removed?' },
    ]);
    expect(guesses.filter(({ kind }) => kind === 'struck')).toMatchObject([{ row: 5, column: 'From', said: 'AIO21' }]);
    // Until somebody answers they are there, and say why one may doubt it.
    expect(labels).toHaveLength(5);
    expect(plan.cables.map(({ status, notes }) => [status, notes])).toEqual([
      ['in-use', undefined],
      ['in-use', 'struck through'],
      ['in-use', 'struck through'],
      ['in-use', undefined],
      ['in-use', undefined],
    ]);
  });

  it('a colour that the key calls removed; one without a key is told, one that bands the list is not', () => {
    const key = [[], ['Key'], ['removed'], ['new']];
    const shown = [mark('fill', 4, 'FF9999'), { ...mark('fill', 9, 'FF9999'), to: 1 }, mark('fill', 3, 'FFFF99')];
    const { gone, guesses } = read([sheet(shown, [...five(), ...key])]);
    expect(gone).toMatchObject([
      { rows: [4], style: 'fill FF9999', question: expect.stringContaining('the key calls that "removed"') },
    ]);
    expect(guesses.filter(({ kind }) => kind === 'fill')).toMatchObject([
      { row: 3, said: 'yellow', style: 'fill FFFF99' },
    ]);
    const banded = read([sheet([2, 4, 6].map((row) => mark('fill', row, 'EEEEEE')))]);
    expect([...banded.gone, ...banded.guesses.filter(({ kind }) => kind === 'fill')]).toEqual([]);
  });

  it('a key on a sheet of its own, with the words beside the colour', () => {
    const legend: Table = {
      name: 'Legend',
      rows: [['', 'taken out']],
      shown: [{ type: 'fill', row: 1, column: 1, to: 1, said: 'FF9999' }],
    };
    expect(read([sheet([mark('fill', 4, 'FF9999')]), legend]).gone).toMatchObject([{ rows: [4], said: 'taken out' }]);
  });

  it('comments that say it; the others are kept as notes', () => {
    const shown = [mark('comment', 3, 'removed 3 May'), mark('comment', 4, 'ask first')].map((one) => ({
      ...one,
      to: 1,
    }));
    const { gone, guesses, plan } = read([sheet(shown)]);
    expect(gone).toMatchObject([{ rows: [3], style: 'comments' }]);
    expect(guesses.filter(({ kind }) => kind === 'comment')).toMatchObject([{ row: 4, said: 'ask first' }]);
    expect(plan.cables.slice(1, 3).map(({ notes }) => notes)).toEqual(['removed 3 May', 'ask first']);
  });

  it('words under Status and in the notes', () => {
    const status = { name: 'A', rows: [[...HEAD, 'Status'], ...five('ok', 'removed', 'void', 'dead', 'ok')] };
    expect(read([status]).gone).toMatchObject([
      {
        column: 'Status',
        rows: [3, 4, 5],
        question: '3 rows say "removed", "void", "dead" (rows 3 to 5). Are they removed?',
      },
    ]);
    expect(read([status]).plan.cables[1]?.notes).toBe('status removed');
    const notes = {
      name: 'A',
      rows: [[...HEAD, 'Notes'], ...five('', 'removed 2018', 'do not remove', 'cut, dead', '')],
    };
    expect(read([notes]).gone).toMatchObject([{ column: 'Notes', rows: [3, 5] }]);
  });

  it('hidden rows, and a sheet that is not in force, which settles all its rows', () => {
    const hidden: SheetMark = { type: 'hidden', row: 3, column: 0, to: 0, said: '' };
    expect(read([sheet([hidden])]).gone).toMatchObject([{ rows: [3], style: 'hidden' }]);
    const old = sheet([mark('struck', 3)], five(), 'OLD - superseded');
    expect(read([old]).gone).toMatchObject([{ rows: [2, 3, 4, 5, 6], style: 'sheet', said: 'OLD - superseded' }]);
  });

  it('not installed is not there yet, in several languages', () => {
    const rows = [[...HEAD, 'Installed'], ...five('✓', '✗', 'No', 'nein', 'yes')];
    const { plan, gone } = read([{ name: 'A', rows }]);
    expect(plan.cables.map(({ status }) => status)).toEqual(['in-use', 'future', 'future', 'future', 'in-use']);
    expect(gone).toEqual([]);
  });
});

describe('one answer is for all rows of a style', () => {
  const struck = [sheet([mark('struck', 3), mark('struck', 4)])];
  const said = (as: 'removed' | 'spare' | 'future' | 'in-use') =>
    withGone(NO_ANSWERS, { sheet: 'Cables', style: 'struck', as });

  it('removed: they are no items, counted and told as said by hand', () => {
    const { gone, labels, counts, guesses } = read(struck, said('removed'));
    expect(gone).toEqual([]);
    expect(labels).toEqual(['2001', '2004', '2005']);
    expect(counts).toMatchObject({ rowsIn: 5, used: 3, skipped: 2 });
    expect(guesses.filter(({ kind }) => kind === 'by-hand').map(({ row, readAs }) => [row, readAs])).toEqual([
      [3, 'removed, left out'],
      [4, 'removed, left out'],
    ]);
  });

  it('spare or not installed yet: they have that status and keep the note', () => {
    expect(read(struck, said('spare')).plan.cables[1]).toMatchObject({ status: 'spare', notes: 'struck through' });
    expect(read(struck, said('future')).plan.cables[1]).toMatchObject({ status: 'future' });
  });

  it('in use: the style says nothing, which the plan tells', () => {
    const { plan, guesses } = read(struck, said('in-use'));
    expect(plan.cables[1]?.notes).toBeUndefined();
    expect(guesses.filter(({ kind }) => kind === 'by-hand')).toMatchObject([
      { row: 3, readAs: 'rows 3 to 4: in use, put in by hand' },
    ]);
  });

  it('taken back it is asked again; said anew the last one holds', () => {
    const first = said('removed');
    const [answer] = first.gone!;
    expect(read(struck, withoutGone(first, answer!)).gone).toHaveLength(1);
    expect(withGone(first, { ...answer!, as: 'spare' }).gone).toEqual([{ ...answer!, as: 'spare' }]);
  });

  it('a ditto below a row that is left out still means that row', () => {
    const rows = five();
    rows[2] = ['2003', 'AIO99', 'OUT 3', 'CON30', 'IN 3'];
    rows[3] = ['2004', '"', 'OUT 4', 'CON30', 'IN 4'];
    const { plan } = read([sheet([mark('struck', 4)], rows)], said('removed'));
    expect(plan.cables.find(({ label }) => label === '2004')?.ends[0]?.unit).toBe('AIO99');
  });
});

describe('many of them', () => {
  it('are one question, whatever their number', () => {
    const rows = Array.from({ length: 2_000 }, (_, i) => [`C${i}`, `SW${i % 100}`, `P${i}`, `RX${i % 100}`, `P${i}`]);
    const shown = rows.flatMap((_, i) => [mark('struck', i + 2), mark('fill', i + 2, `${i % 2}F0000`)]);
    const { gone } = read([sheet(shown, rows)]);
    expect(gone).toHaveLength(1);
    expect(gone[0]?.rows).toHaveLength(500);
    expect(gone[0]?.question).toContain('2000 rows are struck through (rows 2 to 2001)');
  }, 30_000);
});

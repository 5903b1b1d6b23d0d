// The report's document: its order, its typed cells, and that a second writer, here of plain lines, needs nothing but the
// document to say all that the page says. Data invented.
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Block,
  type Cell,
  type Run,
  SECTION_IDS,
  spelledOut,
} from '../../../src/core/report/document/document.ts';
import { reportDocument } from '../../../src/core/report/document/reportDocument.ts';
import { type ReportNode, reportTree, textOf } from '../../../src/core/report/document/tree.ts';
import type { Reconciliation } from '../../../src/core/report/reconciliation.ts';
import { documentToHtml } from '../../../src/files/reportHtml.ts';
import { AT, line, report } from '../../files/reportFixture.ts';

const ABOUT = { madeAt: AT, version: '1.0.0', timeZone: 'UTC' };

/** Everything in it. */
function full(text = 'words'): Reconciliation {
  const said = { words: text, isLabel: true, by: text, at: AT };
  return report({
    name: text,
    lines: [
      line({ id: 'a', severity: 'people', severityWords: 'Hazard to people', order: text, line: text, notes: [text] }),
      line({ id: 'b', number: 2, found: text, labels: [text], photos: ['d'] }),
    ],
    left: [{ place: 'SW1/P03', words: text, plan: null, found: said, left: said, outcome: 'differs' }],
    changes: [{ place: text, label: text, reason: text, until: text, author: text, at: AT }],
    added: [{ event: 'x', parts: [{ type: 'room', id: 'r', label: text }], author: text, at: AT }],
    pairs: [{ label: text, words: text }],
    toProve: [{ ends: text, certainty: 'probable', words: text }],
    tests: [
      { label: text, end: text, place: text, result: 'fail', words: text, author: text, at: AT, again: true },
      { label: text, end: '', place: text, result: 'pass', words: null, author: text, at: AT, again: false },
    ],
    renaming: {
      counts: { all: 3, done: 1, half: 1, untouched: 1 },
      half: [{ old: text, new: text, todo: [text], handedOver: null, place: null }],
    },
    remarks: [{ place: null, text, at: AT, author: text }],
    past: [{ event: 'e', words: text, by: text, at: AT, reason: text, about: text }],
    amendments: {
      ends: [{ isCable: true, label: text, end: 'to end', from: null, to: text, by: text, reason: text }],
      byHand: [{ difference: 'b', why: text, by: text, reason: text }],
    },
    explained: {
      causes: [],
      nextLook: null,
      alone: [],
      exact: true,
      refused: [{ event: 'r', words: text, by: text, at: AT, reason: null }],
      reopened: [{ event: 'o', words: text, by: text, at: AT, reason: null, why: text }],
    },
    media: {
      photos: [
        {
          event: 'p',
          document: 'd',
          place: null,
          words: text,
          whole: true,
          at: AT,
          author: text,
          width: 4,
          height: 3,
          marks: [],
          pins: [],
        },
      ],
      voices: [{ event: 'v', document: 's', place: null, words: text, at: AT, author: text, lasts: 2000 }],
    },
  });
}

test('Has every section once, in the one order, and a title and words for each', () => {
  const { sections } = reportDocument(full(), ABOUT);
  expect(sections.map(({ id }) => id)).toEqual([...SECTION_IDS]);
  expect(new Set(sections.map(({ title }) => title)).size).toBe(sections.length);
  expect(sections.every(({ title, blocks }) => title !== '' && blocks.length > 0)).toBe(true);
});

test('Leaves out the sections of which there is nothing to say', () => {
  const ids = reportDocument(report({ lines: [], counts: [] }), ABOUT).sections.map(({ id }) => id);
  expect(ids).toEqual(['cables', 'worst', 'racks', 'not-looked', 'left-out', 'window', 'confirmed', 'walk']);
});

test('Keeps counts as numbers that add up, and times as numbers in columns of their own', () => {
  const tables = reportDocument(full(), ABOUT).sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.type === 'table' ? [block.table] : [])),
  );
  const cellsOf = (rows: Cell[][], at: number) => rows.map((row) => row[at]!);
  let added = 0;
  for (const { columns, rows, sum } of tables) {
    expect(rows.every((row) => row.length === columns.length)).toBe(true);
    columns.forEach(({ kind }, at) => {
      const cells = cellsOf(rows, at);
      if (kind === 'time')
        expect(cells.every((cell) => cell.type === 'words' && cell.runs[0]?.type === 'time')).toBe(true);
      if (kind !== 'count' || !sum) return;
      const numbers = [...cells, sum[at]!].map((cell) => (cell.type === 'count' ? cell.n : Number.NaN));
      expect(numbers.slice(0, -1).reduce((a, b) => a + b, 0)).toBe(numbers.at(-1));
      added += 1;
    });
  }
  expect(added).toBeGreaterThan(3);
  expect(tables.flatMap(({ columns }) => columns.filter(({ kind }) => kind === 'time')).length).toBeGreaterThan(3);
});

/** A writer of bare lines, made of the document alone. */
function toLines(of: Reconciliation): string[] {
  const document = reportDocument(of, ABOUT);
  const said = (runs: readonly Run[]) =>
    runs.map((run) => (run.type === 'time' ? document.when(run.at) : spelledOut(run.text))).join('');
  const cell = (one: Cell): string => {
    switch (one.type) {
      case 'count':
        return String(one.n);
      case 'words':
        return said(one.runs);
      case 'names':
        return one.names.map(spelledOut).join(', ');
    }
  };
  const linesOf = (block: Block): string[] => {
    switch (block.type) {
      case 'heading':
        return [block.text];
      case 'paragraph':
      case 'caution':
        return [said(block.runs)];
      case 'facts':
        return block.rows.flatMap(({ name, value }) => [name, said(value)]);
      case 'table': {
        const { columns, rows, sum } = block.table;
        return [
          ...columns.map(({ name }) => name),
          ...[...rows, ...(sum ? [sum] : [])].flatMap((row) => row.map(cell)),
        ];
      }
      case 'list':
        return block.items.flatMap(({ lines }) => lines.map(said));
      case 'labels':
        return [block.labels.map(spelledOut).join(' ')];
      case 'entries':
        return block.entries.flatMap((one) => [
          `No. ${one.number}: ${spelledOut(one.title)}`,
          ...one.blocks.flatMap(linesOf),
        ]);
      case 'pictures':
        return block.pictures.map(({ caption }) => said(caption));
      case 'voices':
        return block.voices.map(({ words }) => said(words));
    }
  };
  return [
    said(document.above),
    spelledOut(document.name),
    ...document.lead.flatMap(linesOf),
    ...document.sections.flatMap(({ title, count, blocks }) => [
      title,
      ...(count === null ? [] : [count]),
      ...blocks.flatMap(linesOf),
    ]),
    ...document.closing.flatMap(linesOf),
  ];
}

const textsOf = (node: ReportNode): string => textOf(node).replace(/\s+/g, '');

test('Another writer needs the document alone: it says the very words of screen and page, in their order', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 20 }), (text) => {
      const of = full(text);
      const { head, sections, foot } = reportTree(reportDocument(of, ABOUT), 'h2');
      const tree = [head, ...sections.map(({ node }) => node), foot].map(textsOf).join('');
      expect(toLines(of).join('').replace(/\s+/g, '')).toBe(tree);
    }),
    { numRuns: 50 },
  );
});

test('Lists of any length are made and written: fifty thousand jacks that nobody looked at', () => {
  const notLooked = Array.from({ length: 50_000 }, (_, i) => ({ place: `SW1 P${i}`, reason: 'not looked at' }));
  const notSeen = notLooked.map(({ place }) => place);
  const html = documentToHtml(reportDocument(report({ notLooked, notSeen, confirmed: notSeen }), ABOUT));
  expect(html).toContain(' and 49800 more');
});

test('The page has the words of the tree and no other', () => {
  const document = reportDocument(full(), ABOUT);
  const picture = new Map([['d', 'data:image/png;base64,AAAA']]);
  const bare = documentToHtml(document, picture)
    .replace(/^[\s\S]*<body>/, '')
    .replace(/<[^>]*>/g, '')
    .replace(/\s+/g, '');
  const { head, sections, foot } = reportTree(document, 'h1');
  expect(bare).toBe([head, ...sections.map(({ node }) => node), foot].map(textsOf).join(''));
});

// What the rows of a list are taken for, told once for the whole list; where two shapes fit it is asked.
import type { Columns } from '../columns.ts';
import type { Notebook, Table } from '../rows/readTypes.ts';
import type { RowShape } from './rowShape.ts';

const along = (example: readonly string[]) => example.join(' → ');

const BESIDE = 'a list of its own, beside another on this sheet';

/** What each row is, in words. */
export function shapeToWords(shape: RowShape): string {
  const { example } = shape;
  switch (shape.kind) {
    case 'chain':
      return `each row is a chain of cables, one for each hop, all with the row's number: ${along(example)}`;
    case 'far-ends':
      return `each row is one cable from ${example[0] ?? 'one end'} to up to ${shape.ends} ends: ${example.slice(1).join(', ')}`;
    case 'end':
      return `each row is one end, two rows of one number are a cable: ${along(example)}`;
    case 'part':
      return `each row is one ${shape.title.toLowerCase()} of a cable with that number: ${example.join(', ')}`;
    case 'under-mother':
      return `numbers that count under the cable above: ${along(example)}`;
    case 'stereo':
      return `a left and a right cable with one number: ${example.join(', ')}`;
    case 'slot':
      return `the slot is part of the jack's name: ${along(example)}`;
    case 'landing':
      return shape.sides.length > 0
        ? `each row is a jack with a cable on each side, ${shape.sides.join(' and ')}: ${example.join(', ')}`
        : `each row is a jack with the cable at it: ${along(example)}`;
    case 'titled':
      return `${shape.text}, for all rows of this list, since its title says so`;
  }
}

/** @param isByHand A person set the columns: what they say is no guess. */
export function tellShapes(table: Table, columns: Columns, isByHand: boolean, notebook: Notebook): void {
  const row = (table.firstRow ?? 1) + columns.header;
  const { asked, shapes = [] } = columns;
  if (table.beside)
    notebook.guess('row-shape', table.name, row, undefined, columns.titles[table.beside.from - 1] ?? '', BESIDE);
  for (const shape of shapes) {
    if (shape.kind === 'titled' ? columns.at.has(shape.meaning) : isByHand) continue;
    notebook.guess('row-shape', table.name, row, undefined, shape.example[0] ?? '', shapeToWords(shape));
  }
  const other = asked?.shapes?.[0];
  const [own] = shapes;
  if (!own || !other || isByHand) return;
  notebook.ask(
    'row-shape',
    table.name,
    row,
    undefined,
    own.example[0] ?? '',
    `Is ${shapeToWords(own)}; or is ${shapeToWords(other)}?`,
  );
}

// What goes into and comes out of the reading of a schedule, as data. No reading is done here.

import type { Guess, Plan } from '../../plan/model.ts';
import type { Direction, Leg, Signal } from '../../trade/kinds.ts';
import type { SignalWords } from '../../trade/signals.ts';
import type { ListKind } from '../meanings.ts';
import type { RowShape } from '../shapes/rowShape.ts';

/** One sheet as text cells. Row and column numbers that people see are 1-based, as a spreadsheet shows them. */
export interface Table {
  name: string;
  rows: string[][];
  /** Number of the first row of `rows` in the file; 1 when absent. */
  firstRow?: number;
  /** What the file reader already had to guess about single cells, such as a date where a number was meant. */
  notes?: { row: number; column: number; said: string; readAs: string; kind?: GuessKind }[];
  /** What a workbook shows beside its texts, which may say that something is not there any more. */
  shown?: SheetMark[];
  /** What is known of single rows beside their cells, by the number of the row. */
  signs?: ReadonlyMap<number, RowSign>;
  /** Cells that were merged downwards: where the text stands, and over how many rows. */
  merged?: { row: number; column: number; rows: number }[];
  /** Cells that a person takes as they stand, `row column`: no range, no note, no sign of repetition. */
  literal?: ReadonlySet<string>;
  /** Numbers of the rows that a person says are no item; they are blank. */
  left?: ReadonlySet<number>;
  /** Columns, from 0, that stand for what a person said of the whole list, by their meaning. */
  added?: ReadonlyMap<string, number>;
  /** Keys of the units that other lists of the file name. */
  unitNames?: ReadonlySet<string>;
  /** First and last column of a list that has another beside it; the cells of the others are blank here. */
  beside?: { from: number; to: number };
}

export interface SheetMark {
  type: 'struck' | 'fill' | 'comment' | 'hidden';
  row: number;
  /** First and last column of a run of cells that look alike; 0 for a whole row. */
  column: number;
  to: number;
  /** Colour of the fill, text of the comment; '' for the others. */
  said: string;
}

/** How rows say that they are not there any more: all of one style are asked about at once. */
export type GoneStyle = 'sheet' | 'struck' | 'status' | 'notes' | 'comments' | 'hidden' | `fill ${string}`;

/** A row that may not be there any more, and what a person said of it. */
export interface RowSign {
  /** Kept with the item; '' for nothing. */
  note: string;
  status?: 'spare' | 'future';
  /** A person said that it is removed: no item. */
  isGone?: boolean;
}

/** What sort of guess it is: a person agrees with all of one sort at once. */
export type GuessKind =
  | 'ditto'
  | 'from-above'
  | 'signal'
  | 'status'
  | 'on-air'
  | 'several-cables'
  | 'several-jacks'
  | 'one-place'
  | 'note'
  | 'taken-apart'
  | 'number-changed'
  | 'number-cell'
  | 'setting'
  | 'date'
  | 'trailing-zero'
  | 'look-alike'
  | 'struck'
  | 'fill'
  | 'comment'
  | 'length-unit'
  | 'column-unread'
  | 'column-inferred'
  | 'no-item'
  | 'row-shape'
  | 'same-cable'
  | 'rack'
  | 'spelling'
  | 'unit'
  | 'nothing-here'
  | 'jack-read'
  | 'file'
  | 'by-hand'
  | 'as-it-stands';

/** A guess while it may be agreed to; the plan keeps what was said and read alone. */
export interface SortedGuess extends Guess {
  kind: GuessKind;
  /** Rows that it is told of at once, the first of them, and their style, as a question has it. */
  rows?: number[];
  style?: GoneStyle;
}

/** What a question is about. */
export type QuestionKind =
  | 'end'
  | 'jack'
  | 'unit'
  | 'number'
  | 'row-shape'
  | 'several'
  | 'which-is-right'
  | 'spelling'
  | 'signal'
  | 'length'
  | 'word'
  | 'circuit'
  | 'column'
  | 'no-item'
  | 'ditto'
  | 'own-sheet'
  | 'gone';

/** Something the reader could not decide and did not guess silently. */
export interface Question {
  kind: QuestionKind;
  sheet: string;
  row: number;
  column?: string;
  said: string;
  question: string;
  /** Rows that it is asked about at once, the first of them; absent where it is one. */
  rows?: number[];
  /** In which style they say that they are not there any more: the answer is for all of them. */
  style?: GoneStyle;
}

export interface ReadCounts {
  /** Rows below the headers of the lists that were read. */
  rowsIn: number;
  cables: number;
  units: number;
  jacks: number;
  /** Rows that made something: rows in are these, the blank, the joined and the skipped ones. */
  used: number;
  blank: number;
  /** Rows that tell of a cable once more, from its other end or on another sheet. */
  joined: number;
  /** Rows that list nothing: headings, sums, legends, repeated headers; each is among the guesses or the questions. */
  skipped: number;
  lists: { sheet: string; kind: ListKind; headerRow: number; rows: number; shapes?: RowShape[] }[];
  /** Sheets, or lists on one, in which nothing was recognised. */
  ignored: Ignored[];
}

/** Rows that no list was recognised in. */
export interface Ignored {
  sheet: string;
  /** The first of the rows. */
  row: number;
  /** The whole sheet; false where other rows of it are a list. */
  isWhole: boolean;
  /** The first words there. */
  said: string;
}

export type ReadPlan =
  | {
      type: 'plan';
      plan: Plan;
      guesses: SortedGuess[];
      questions: Question[];
      counts: ReadCounts;
      /** The sheets are our own and bear the ids: none has to be recognised. */
      ids?: 'given';
    }
  | { type: 'not-a-schedule'; why: string; where: { sheet: string; row: number } | null; nextStep: string };

/** One end as the sheet says it, before units get their ids. */
export interface RawEnd {
  location: string;
  rack: string;
  room: string;
  u: number | null;
  unit: string;
  jack: string;
  connector: string;
  /** Title of the column that names the unit. */
  column: string | undefined;
  /** Title of the column that names the jack, where it is another. */
  jackColumn?: string | undefined;
  /** Title of the column that names the room or rack. */
  placeColumn?: string | undefined;
  /** False when the sheet itself doubts the place (`rear?`): the words are kept, no place is made. */
  sure: boolean;
  /** True for a jack that a person takes as it stands: no range, no list. */
  literal?: boolean;
  /** True where the cable goes on behind: a panel between two units of one row. */
  passage?: boolean;
}

export interface RawCable {
  label: string;
  from: RawEnd[];
  to: RawEnd[];
  signal: Signal | undefined;
  signalText: string;
  circuit: string;
  cableType: string;
  length: string;
  leg: Leg | undefined;
  status: 'in-use' | 'spare' | 'future';
  onAir: boolean;
  notes: string;
  /** Settings that belong to the input the cable ends at. */
  settings: { name: string; value: string }[];
  mult: boolean;
  sheet: string;
  row: number;
}

export interface RawUnit {
  label: string;
  room: string;
  rack: string;
  u: number | null;
  heightU: number;
  mounted: 'front' | 'rear';
  jacks: string[];
  layout: 'one-row' | 'two-rows' | 'odd-over-even' | null;
  jackFace: 'front' | 'rear' | null;
  through: boolean;
  description: string;
  serial: string;
  mac: string;
  settings: { name: string; value: string }[];
  sheet: string;
  row: number;
}

export interface RawJack {
  room: string;
  unit: string;
  jack: string;
  connector: string;
  direction: Direction | undefined;
  signal: Signal | undefined;
  leg: Leg | undefined;
  mult: boolean;
  spare: boolean;
  wires: { tip: string; ring: string } | null;
  /** Jack of the same unit that it is normalled to, as the list says it. */
  normalled: string;
  /** Number of the cable that the list says lands here. */
  cable: string;
  notes: string;
  /** Address of the unit, where a list of sources gives it. */
  address: string;
  settings: { name: string; value: string }[];
  sheet: string;
  row: number;
}

export interface RawCircuit {
  name: string;
  role: 'main' | 'standby' | undefined;
  carrier: string;
  hops: string[];
  notes: string;
  column: string | undefined;
  sheet: string;
  row: number;
}

export interface RawRack {
  label: string;
  room: string;
  heightU: number | null;
  numbering: 'bottom-up' | 'top-down' | null;
}

/** One question or guess for many rows. */
export type ManyRows = Required<Pick<Question, 'rows' | 'style'>>;

/** Where guesses and questions go while reading. */
export interface Notebook {
  /** Words of the station's sheets that stand for a signal. */
  signalWords: readonly SignalWords[];
  /** One more row is read. */
  row(): void;
  /** So many more are made of a row; false where there are too many, and nothing more is to be read. */
  made(what: 'cables' | 'jacks', n: number, sheet: string, row: number): boolean;
  guess(
    kind: GuessKind,
    sheet: string,
    row: number,
    column: string | undefined,
    said: string,
    readAs: string,
    many?: ManyRows,
  ): void;
  ask(
    kind: QuestionKind,
    sheet: string,
    row: number,
    column: string | undefined,
    said: string,
    question: string,
    many?: ManyRows,
  ): void;
}

// What a sheet is read with: the station's habits and what a person said of its cells.

import type { Cable, Rack } from '../plan/model.ts';
import type { SignalWords } from '../trade/signals.ts';
import type { SheetAnswers } from './sheetAnswers.ts';

export interface ReadOptions {
  /** Name of the plan, as a rule the file's name without its ending. */
  name: string;
  /** How the station counts a rack of which no list says it; from the bottom unless told. */
  numbering?: Rack['numbering'] | undefined;
  /** Words of the station's sheets that stand for a signal. */
  signalWords?: readonly SignalWords[] | undefined;
  /** What a person said of columns and cells. */
  answers?: SheetAnswers | undefined;
  /** Cables of the plan in force, which a list of circuits without cables of its own runs over. */
  cablesInForce?: readonly Cable[] | undefined;
  /** Hears how many rows are read. */
  told?: ((rows: number) => void) | undefined;
}

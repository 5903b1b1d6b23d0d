// What one row of a list of cables stands for, where it is not simply one cable from one end to another. Data alone;
// which shape a list has is found in findShape.ts.

/**
 * A shape that a whole list has; a list may have several that do not exclude each other. `example` is one row of the list
 * in the order in which the signal, or the cable, passes: each text one unit with its jack.
 */
export type RowShape =
  /** Panels between two units: each row is a chain of cables, `example` all that they pass from end to end. */
  | { kind: 'chain'; panels: number; example: string[] }
  /** One cable with one from end and up to `ends` to ends; `example` begins with the from end. */
  | { kind: 'far-ends'; ends: number; example: string[] }
  /**
   * Each row is one end, two rows of one number are one cable: `example` are the ends of the first. `marked`: the number
   * of each row ends in the letter of its end, `3101-A`.
   */
  | { kind: 'end'; marked: boolean; example: string[] }
  /** Each row is a conductor or pair of a cable that several rows name; `title` names the column that counts them. */
  | { kind: 'part'; title: string; example: string[] }
  /** Numbers such as `.1` count under the number above: `example` are the mother and the first under it. */
  | { kind: 'under-mother'; example: string[] }
  /** `S101-L/R` is two cables: `example` are both. */
  | { kind: 'stereo'; example: string[] }
  /** The card's slot stands before the jack and is part of its name: `example` is one such name. */
  | { kind: 'slot'; example: string[] }
  /**
   * Each row is a jack of a panel, bay or block with the cable at it: `example` are that jack and the far end. `sides`
   * names the two sides of the jack (`house`, `jumper`) where each has a cable of its own, and is empty otherwise.
   */
  | { kind: 'landing'; sides: string[]; example: string[] }
  /** What every row leaves out, `meaning` of a column, is `text` of the list's title or of the sheet's name. */
  | { kind: 'titled'; meaning: string; text: string; example: string[] };

/** @typeParam List A list with its columns. */
export interface Shaped<List> {
  /** What a row of it stands for, where that is not simply one cable with two ends. */
  shapes?: RowShape[];
  /** The same list with other columns and shapes, where these fit as well: asked about. */
  asked?: List;
}

/** Panels that one row may pass, and to ends that it may have. */
export const MOST_PANELS = 6;
export const MOST_FAR_ENDS = 8;

/** Whose cells say where a hop begins or ends: `from`, `to`, `panel1`, `to2`. */
export type Station = string;

/** The stations of a chain, in order. */
export function chainStations(at: ReadonlyMap<string, number>): Station[] {
  const panels = Array.from({ length: MOST_PANELS }, (_, i) => `panel${i + 1}`);
  return ['from', ...panels.filter((panel) => hasStation(at, panel)), 'to'];
}

/** The further to ends, in order. */
export function furtherEnds(at: ReadonlyMap<string, number>): Station[] {
  const ends = Array.from({ length: MOST_FAR_ENDS - 1 }, (_, i) => `to${i + 2}`);
  return ends.filter((end) => hasStation(at, end));
}

function hasStation(at: ReadonlyMap<string, number>, station: Station): boolean {
  return at.has(station) || at.has(`${station}Unit`) || at.has(`${station}Jack`);
}

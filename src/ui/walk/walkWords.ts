// What a walk says of its own acts: what undo takes back, what was kept and could not be followed. Words only.

import type { PlaceId } from '../../core/plan/identity.ts';
import type { Sighting } from '../../core/record/events.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { STATE_WORDS } from '../../core/report/words/recordWords.ts';
import type { Sayable } from '../../core/walk/corrections.ts';
import type { Statement } from '../../core/walk/question.ts';
import type { Slip } from '../../core/walk/slip.ts';
import type { Recorded } from '../services.ts';
import { count } from '../words.ts';
import { labelToShow } from './walkState.ts';

/** What the walk tells in its line: what became of an act that is no entry of a jack. */
export const LINES = {
  noAnswer: 'The record gave no answer, and nothing is recorded. Try again.',
  nothingToUndo: 'Nothing recorded on this walk can be undone here.',
  nothingMoved: 'Nothing was moved.',
  noteSaved: 'Note saved.',
  noteNotOnDisk: (why: string) => `Note is not on disk yet: ${why}`,
  hazardRecorded: 'Hazard recorded.',
  hazardNotOnDisk: (why: string) => `Hazard is not on disk yet: ${why}`,
  undone: (act: string) => `Undone: ${act}.`,
  notAdded: (why: string) => `Not added: ${why}`,
  added: (part: string) => `Added to this audit: ${part}.`,
  youMay: (act: string) => `You may ${act}.`,
  notClosed: (why: string) => `The audit is not closed: ${why}`,
  photoSaved: (place: string) => `Photo saved at ${place}.`,
  wholeSaved: (unit: string) => `Photo of ${unit} saved.`,
  voiceSaved: (lasts: string, place: string) => `Voice note of ${lasts} saved at ${place}.`,
} as const;

/** Nothing of it is recorded. */
export function notSavedToWords(result: Recorded): string {
  return result.type === 'not-saved' ? `Not saved: ${result.why}` : 'Not saved.';
}

/** Where a statement is now; `nothing`: the label was read before, so none was made. */
export type Whereabouts = Recorded['type'] | 'nothing';

export function statementToWords(statement: Statement): string {
  switch (statement.kind) {
    case 'sighting':
      return sightingToWords(statement.payload);
    case 'label-put':
      return statement.payload.why === 'twin' ? `tag ${statement.payload.text}` : `new label ${statement.payload.text}`;
    case 'label-off':
      return `old label ${statement.payload.text} off`;
  }
}

export function sayableToWords(say: Sayable): string {
  switch (say.kind) {
    case 'sighting':
      return sightingToWords(say.payload);
    case 'note':
      return 'the note';
    case 'photo':
      return 'the photo';
    case 'voice-note':
      return 'the voice note';
    case 'hazard-seen':
      return 'the hazard';
    case 'jacket-read':
      return 'jacket and mark';
  }
}

/** `SW1 P03, 1004`; of a row its first and last jack. */
function sightingToWords({ said, plugs, state }: Sighting): string {
  const [first = ''] = said;
  const where = said.length > 2 ? `${first} to ${said.at(-1)}` : said.join(', ');
  const label = plugs[0]?.labels[0]?.text;
  return `${where}, ${label === undefined ? STATE_WORDS[state].brief : labelToShow(label)}`;
}

export function slipToWords({ moves, step }: Slip): string {
  return `the move of ${count(moves.length, 'entry', 'entries')} by ${count(Math.abs(step), 'jack')}`;
}

/** After a slip was put right. @param open The jack that was passed over. */
export function movedToWords({ moves, step }: Slip, open: string): string {
  const [entries, jacks] = [count(moves.length, 'entry', 'entries'), count(Math.abs(step), 'jack')];
  return `Moved ${entries} by ${jacks}. ${open} is open again.`;
}

/** Several labels in a row are off by the same step. */
export function slipToQuestion({ moves, step }: Slip): string {
  const labels = count(moves.length, 'label');
  const jacks = count(Math.abs(step), 'jack');
  return step > 0
    ? `${labels} in a row belong ${jacks} further on. Is it you or the cables?`
    : `${labels} in a row belong ${jacks} back. Is it you or the cables?`;
}

export function unseenWords(at: WalkView, places: readonly PlaceId[], where: Whereabouts): string {
  const here = places.length === 1 && places[0] === at.current.place;
  const what = here
    ? `${at.unit.label} ${at.current.jack}`
    : places.length > 1
      ? `The row of ${count(places.length, 'jack')}`
      : 'The entry';
  switch (where) {
    case 'nothing':
      return `Nothing is recorded. ${what} could not be compared with the plan: try again.`;
    case 'saved':
      return `${what}: saved, but not compared with the plan. Check it under Differences. Go on with the next jack.`;
    case 'not-saved':
      return `${what}: recorded, not on disk yet, and not compared with the plan. Check it under Differences. Go on with the next jack.`;
  }
}

// The one judge of a walk: what is asked or recorded when something is said. Pure, over the fold and the walk's memory;
// the page shows the question or records the statement, and judges nothing itself.
import { isSlot, type PlaceId, type UnitId } from '../plan/identity.ts';
import type { ReadLabel, Sighting } from '../record/events.ts';
import type { Fold } from '../rules/fold.ts';
import { earlierLooks, replaced, resolveEarlier } from './earlier.ts';
import { visitAt, type WalkMemory } from './memory.ts';
import { isOwnName, nearLabels } from './nearNames.ts';
import type { By, LabelQuestion, Statement, WalkQuestion } from './question.ts';
import { isUnlikelyLabel, type ReadingView, readingView } from './reading.ts';
import { dueLabel, renameReading } from './renameStep.ts';
import { twinOnto } from './twinOnto.ts';

/** The jack in hand, the unit it is on, and how it is called on the screen. */
export interface Here {
  place: PlaceId;
  words: string;
  unit: UnitId;
}

export type WalkInput =
  /** A text off a label. `justSaid`: the jack just spoken about, where the walk itself went on from it. */
  | { type: 'reading'; text: string; by: By; length: number; justSaid?: string | undefined; log: string }
  /** What a person says, of one place or several. */
  | { type: 'statement'; sighting: Sighting }
  /** "New label is on" or "Old one is off", whichever is due. */
  | { type: 'label-act' };

export type Decision =
  | { type: 'ask'; question: WalkQuestion }
  | { type: 'record'; statement: Statement }
  /** Label first: the text waits for its jack. */
  | { type: 'hold'; text: string; by: By }
  /** The label was read here before: there is nothing to record, and its verdict is owed. */
  | { type: 'again'; place: PlaceId; text: string }
  | { type: 'nothing' };

/** What the judge has to know of a walk's memory. */
export type Remembered = Pick<WalkMemory, 'paused' | 'visit' | 'first' | 'notNow' | 'worked'>;

const NOTHING: Decision = { type: 'nothing' };
const UNKNOWN: ReadingView = { type: 'unknown' };

export function decide(fold: Fold, memory: Remembered, here: Here, input: WalkInput): Decision {
  switch (input.type) {
    case 'reading':
      return decideReading(fold, memory, here, input);
    case 'statement':
      return decideSaid(fold, memory, here, input.sighting);
    case 'label-act': {
      const statement = dueLabel(fold, here.place);
      return statement ? { type: 'record', statement } : NOTHING;
    }
  }
}

function decideReading(
  fold: Fold,
  memory: Remembered,
  here: Here,
  reading: Extract<WalkInput, { type: 'reading' }>,
): Decision {
  const { text, by, length, justSaid, log } = reading;
  if (text.trim() === '' || memory.paused) return NOTHING;
  if (memory.first) return { type: 'hold', text: text.trim(), by };
  // A number read at a plug that was said to be bare was put on it since.
  const asked = justSaid === undefined || memory.notNow?.includes(justSaid) ? [] : [justSaid];
  for (const place of [...asked, here.place]) {
    const twin = twinOnto(fold, place, text, log);
    if (twin) return { type: 'record', statement: twin };
  }
  const rename = renameReading(fold, here.place, text);
  if (rename === 'again') return { type: 'again', place: here.place, text };
  if (rename) return { type: 'record', statement: rename };
  const own = isOwnName(fold, text);
  const read = own ? UNKNOWN : readingView(fold.index, here.place, text);
  if (read.type === 'unknown' && isUnlikelyLabel(text)) return ask({ type: 'unlikely', text, by, length });
  const question = own ? null : labelQuestion(fold, read, { text, by });
  if (question) return ask(question);
  return decideSighting(fold, memory, here, {
    places: [here.place],
    said: [here.words],
    state: 'label',
    plugs: [{ labels: [own ? { text, own } : { text }] }],
    basis: 'seen',
    by,
  });
}

/** A label that was not read at the jack in hand (told by a helper, typed for a loose end) is asked about all the same. */
function decideSaid(fold: Fold, memory: Remembered, here: Here, said: Sighting): Decision {
  const { by, state, places, plugs } = said;
  const [place = ''] = places;
  const [label, ...more] = plugs.flatMap(({ labels }) => labels);
  const settled = label?.means !== undefined || label?.own || label?.printed !== undefined;
  // What is tapped was on the screen already, and a rack position bears the label of a unit.
  const asks = state === 'label' && by !== undefined && by !== 'tapped' && !settled && !isSlot(place);
  if (label && asks && more.length === 0 && places.length === 1) {
    const { text } = label;
    if (isOwnName(fold, text)) return decideSighting(fold, memory, here, withLabel(said, { text, own: true }));
    const question = labelQuestion(fold, readingView(fold.index, place, text), { text, by: 'typed', of: said });
    if (question) return ask(question);
  }
  return decideSighting(fold, memory, here, said);
}

/** What has to be asked about a label before it counts; null where it is clear. */
function labelQuestion(
  fold: Fold,
  read: ReadingView,
  of: Pick<LabelQuestion, 'text' | 'by' | 'of'>,
): LabelQuestion | null {
  switch (read.type) {
    case 'ask':
      return { ...of, type: 'candidates', candidates: read.candidates };
    case 'unit':
    case 'rack':
    case 'jack':
      return { ...of, type: 'named', what: read.type, id: read.id, label: read.label };
    case 'unknown': {
      const near = nearLabels(fold, of.text);
      return near.length > 0 ? { ...of, type: 'near', near } : null;
    }
    case 'cable':
      return null;
  }
}

/** The same said with this label: what a person answered about it is in it. */
export function withLabel(said: Sighting, label: ReadLabel): Sighting {
  return { ...said, plugs: said.plugs.map((plug) => ({ ...plug, labels: [label] })) };
}

/** @param said What it takes the place of by the person's word is in it already. */
function decideSighting(fold: Fold, memory: Remembered, here: Here, said: Sighting): Decision {
  const own = replaced(fold.looks, visitAt(memory, here.unit), fold.permission, said);
  const named = new Set(said.withdraws?.map(({ event }) => event));
  const withdraws = [...(said.withdraws ?? []), ...own.filter(({ event }) => !named.has(event))];
  const sighting: Sighting = withdraws.length > 0 ? { ...said, withdraws } : said;
  const earlier = earlierLooks(fold.looks, sighting);
  if (earlier.length === 0) return { type: 'record', statement: { kind: 'sighting', payload: sighting } };
  // Between the two looks hands were at work: there is nothing to ask.
  const worked = earlier.every(({ place = '' }) => memory.worked?.includes(place));
  if (!worked) return ask({ type: 'earlier', sighting, earlier });
  return { type: 'record', statement: { kind: 'sighting', payload: resolveEarlier(sighting, earlier, 'changed') } };
}

function ask(question: WalkQuestion): Decision {
  return { type: 'ask', question };
}

/** The record gives no answer: what a person says is recorded as it is and stands beside what was seen before. */
export function unjudged(input: WalkInput): Decision {
  if (input.type !== 'statement') return NOTHING;
  return { type: 'record', statement: { kind: 'sighting', payload: input.sighting } };
}

// A check that settles a cause, as a form: what is asked, what each answer means and what it records, and what it did.
// Every answer is evidence of a kind that the record knows; nothing is decided here.
import type { Expected, LookHow, NextLook } from '../causes/cause.ts';
import { explain } from '../causes/explain.ts';
import { type PlaceId, unitOf } from '../plan/identity.ts';
import { lookUp } from '../plan/lookUp.ts';
import { factsAt } from '../plan/planIndex.ts';
import { macOf, unitsWithMac } from '../plan/settingSpot.ts';
import type { Basis, Payload } from '../record/events.ts';
import type { Fold } from '../rules/fold.ts';
import { textToMac } from '../trade/addresses.ts';
import { cautionFor } from '../trade/hazards.ts';
import { HARDWARE_ADDRESS } from '../trade/settingNames.ts';
import { CAUSE_WORDS, CERTAINTY_WORDS, causeToTitle, checkQuestion, checkTask, seenWords } from './words/causeWords.ts';

/** What an answer records. */
export type Checked =
  | { kind: 'setting-read'; payload: Payload<'setting-read'> }
  | { kind: 'sighting'; payload: Payload<'sighting'> };

export interface CheckAnswer {
  words: string;
  /** The story that it speaks for, in words. */
  means: string;
  record: Checked;
}

export interface CheckView {
  place: PlaceId;
  placeWords: string;
  how: LookHow;
  question: string;
  /** How it is done. */
  task: string;
  answers: CheckAnswer[];
  cannotTell: Checked;
  caution: string | null;
}

/** The check that is offered at this jack; null where none is owed any more. */
export function checkView(fold: Fold, place: PlaceId): CheckView | null {
  const look = lookAt(fold, place);
  if (!look) return null;
  const placeWords = fold.wordsOf(place);
  const answers = look.expect.map((one) => answerOf(fold, look, one));
  const { signal, connector } = factsAt(fold.index, place);
  return {
    place,
    placeWords,
    how: look.how,
    question: checkQuestion(
      look.how,
      placeWords,
      answers.map(({ words }) => words),
    ),
    task: checkTask(look.how, placeWords),
    answers,
    cannotTell: sighting(fold, look, { state: 'not-visible', plugs: [], reason: 'checked, cannot tell' }),
    caution: cautionFor(signal, connector),
  };
}

function lookAt(fold: Fold, place: PlaceId): NextLook | null {
  const { causes } = explain(fold, fold.discrepancies());
  return causes.find(({ nextLook }) => nextLook?.place === place)?.nextLook ?? null;
}

function answerOf(fold: Fold, look: NextLook, { kind, sees }: Expected): CheckAnswer {
  const answer = { means: CAUSE_WORDS[kind], words: seenWords(fold.index, sees) };
  switch (sees.type) {
    case 'label':
      return {
        ...answer,
        record: sighting(fold, look, { state: 'label', plugs: [{ labels: [{ text: sees.label }] }] }),
      };
    case 'nothing':
      return { ...answer, record: sighting(fold, look, { state: 'empty', plugs: [] }) };
    case 'place': {
      const { place: far } = sees;
      // Two jacks of one unit have one address between them: then the jack is told.
      const units = look.expect.map((one) => (one.sees.type === 'place' ? unitOf(one.sees.place) : ''));
      const isShared = units.filter((unit) => unit === unitOf(far)).length > 1;
      if (look.how !== 'read-page' || isShared) return { ...answer, record: joined(fold, look, far) };
      const mac = macOf(fold.index, unitOf(far));
      const isTold = mac !== null && unitsWithMac(fold.index, mac).length === 1;
      return {
        ...answer,
        words: unitWords(fold, far),
        record: isTold ? learned(look, mac) : joined(fold, look, far),
      };
    }
  }
}

function unitWords(fold: Fold, place: PlaceId): string {
  return fold.index.units.get(unitOf(place))?.label ?? fold.wordsOf(place);
}

/**
 * What a person typed in place of the answers offered: a hardware address, a unit or a jack, a label. Null where a text
 * names nothing that could be at the other end: then it is said which jack is meant.
 */
export function typedAnswer(fold: Fold, place: PlaceId, text: string): Checked | null {
  const look = lookAt(fold, place);
  if (!look) return null;
  if (look.how === 'look')
    return sighting(fold, look, { state: 'label', plugs: [{ labels: [{ text: text.trim() }] }], by: 'typed' });
  if (textToMac(text) !== null) return learned(look, text.trim());
  const found = lookUp(fold.index.names, text);
  const named = found.type === 'found' ? [found.named] : found.type === 'ask' ? found.candidates : [];
  const jack = named.find(({ type }) => type === 'jack');
  if (jack?.type === 'jack') return joined(fold, look, jack.id);
  const unit = named.find(({ type }) => type === 'unit');
  if (unit?.type !== 'unit') return null;
  const mac = macOf(fold.index, unit.id);
  if (look.how === 'read-page' && mac !== null && unitsWithMac(fold.index, mac).length === 1) return learned(look, mac);
  const jacks = fold.index.jacksOf.get(unit.id) ?? [];
  return jacks.length === 1 ? joined(fold, look, jacks[0]!.id) : null;
}

const BASIS: Record<LookHow, Basis> = { look: 'seen', listen: 'followed', follow: 'followed', 'read-page': 'page' };

function learned({ place }: NextLook, value: string): Checked {
  return {
    kind: 'setting-read',
    payload: { unit: unitOf(place), place, name: HARDWARE_ADDRESS, value, basis: 'page' },
  };
}

/** The cable in this jack leads there: heard, followed or listed. What is plugged is known already. */
function joined(fold: Fold, look: NextLook, far: PlaceId): Checked {
  return sighting(fold, look, { state: 'plugged', plugs: [{ labels: [] }], joinedTo: far });
}

function sighting(
  fold: Fold,
  { place, how }: NextLook,
  said: Pick<Payload<'sighting'>, 'state' | 'plugs'> & Partial<Payload<'sighting'>>,
): Checked {
  const payload = { places: [place], said: [fold.wordsOf(place)], basis: BASIS[how], by: 'tapped', ...said };
  return { kind: 'sighting', payload };
}

export interface CheckDone {
  /** What is true of the jack now, the causes that it has a part in first. */
  lines: string[];
  settled: boolean;
}

/** What the answer did, in words: closed, likelier, less likely, or as open as before. */
export function checkDone(fold: Fold, place: PlaceId): CheckDone {
  const { causes } = explain(fold, fold.discrepancies());
  const here = causes.filter(({ places, against, predicts }) =>
    [...places, ...against, ...predicts.map((one) => one.place)].includes(place),
  );
  if (here.length === 0) return { lines: [`No cause is open at ${fold.wordsOf(place)} any more.`], settled: true };
  const lines = here.map((cause) => {
    const title = causeToTitle(cause);
    const against = cause.against.includes(place) ? ` ${fold.wordsOf(place)} now speaks against it.` : '';
    if (cause.certainty === 'confirmed') return `Settled. ${title}.${against}`;
    return `Still open. ${title}: ${CERTAINTY_WORDS[cause.certainty].toLowerCase()}.${against}`;
  });
  return { lines, settled: here.every(({ certainty }) => certainty === 'confirmed') };
}

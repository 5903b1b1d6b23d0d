// A check that settles a cause, as a form: what is asked, what each answer means and what it records, and what it did.
// Every answer is evidence of a kind that the record knows; nothing is decided here.
import type { Expected, LookHow, NextLook } from '../causes/cause.ts';
import { explain } from '../causes/explain.ts';
import { CANNOT_TELL } from '../causes/tried.ts';
import { settleDifference } from '../fixes/looks.ts';
import { type PlaceId, unitOf } from '../plan/identity.ts';
import { lookUp } from '../plan/lookUp.ts';
import type { Cable } from '../plan/model.ts';
import { factsAt } from '../plan/planIndex.ts';
import { macOf, unitsWithMac } from '../plan/settingSpot.ts';
import type { Basis, Payload } from '../record/events.ts';
import { whichEnd } from '../rules/cableDiscrepancies.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Fold } from '../rules/fold.ts';
import { textToMac } from '../trade/addresses.ts';
import { cautionFor } from '../trade/hazards.ts';
import { HARDWARE_ADDRESS } from '../trade/settingNames.ts';
import {
  CAUSE_WORDS,
  CERTAINTY_WORDS,
  causeToTitle,
  checkQuestion,
  checkTask,
  lookToLine,
  seenWords,
} from './words/causeWords.ts';

/** What an answer records. */
export type Checked =
  | { kind: 'setting-read'; payload: Payload<'setting-read'> }
  | { kind: 'sighting'; payload: Payload<'sighting'> };

interface CheckAnswer {
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

/** What is asked at a jack; beside a look of a cause, what one difference that no cause covers wants followed. */
interface Owed {
  look: NextLook;
  alone: Discrepancy | null;
}

/** The check that is offered at this jack; null where none is owed any more. */
export function checkView(fold: Fold, place: PlaceId): CheckView | null {
  const owed = owedAt(fold, place);
  if (!owed) return null;
  const { look, alone } = owed;
  const placeWords = fold.wordsOf(place);
  const answers = alone ? answersAlone(fold, look, alone) : look.expect.map((one) => answerOf(fold, look, one));
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
    cannotTell: sighting(fold, look, { state: 'not-visible', plugs: [], reason: CANNOT_TELL }),
    caution: cautionFor(signal, connector),
  };
}

function owedAt(fold: Fold, place: PlaceId): Owed | null {
  const differences = fold.discrepancies();
  const { causes, alone } = explain(fold, differences);
  const look = causes.find(({ nextLook }) => nextLook?.place === place)?.nextLook;
  if (look) return { look, alone: null };
  const open = new Set(alone);
  for (const one of differences) {
    if (one.places[0] !== place || !open.has(one.id)) continue;
    const [step] = settleDifference(fold, one).steps;
    if (step?.task !== 'settle' || step.to !== place || step.how === undefined || step.how === 'look') continue;
    return { look: { place, how: step.how, expect: [] }, alone: one };
  }
  return null;
}

/** Where the cable whose label is here would lead, and the one that the plan has here. */
function answersAlone(fold: Fold, look: NextLook, { kind, cable, found }: Discrepancy): CheckAnswer[] {
  if (kind !== 'wrong-jack') return [];
  const { index } = fold;
  const own = index.endsAt.get(look.place)?.[0]?.cable;
  const labelled = index.cables.get(cable ?? '');
  const home = labelled && whichEnd(fold, labelled, look.place, null);
  const fars = (one: Cable | undefined, end: string | null | undefined) =>
    (one?.ends ?? []).flatMap(({ end: name, place }) => (place === null || name === end ? [] : [place]));
  const answer = (place: PlaceId, means: string): CheckAnswer => ({
    words: fold.wordsOf(place),
    means,
    record: joined(fold, look, place),
  });
  const here = own?.ends.find(({ place }) => place === look.place)?.end;
  return [
    ...(home ? fars(labelled, home).map((far) => answer(far, `It is ${found ?? labelled?.label}`)) : []),
    ...fars(own, here).map((far) => answer(far, `It is ${own?.label}, the label is wrong`)),
  ];
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
  const look = owedAt(fold, place)?.look;
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
  /** The check that is the next best. */
  next: { place: PlaceId; words: string } | null;
}

/** What the answer did, in words: closed, likelier, less likely, or as open as before. */
export function checkDone(fold: Fold, place: PlaceId): CheckDone {
  const { causes } = explain(fold, fold.discrepancies());
  const here = causes.filter(({ places, against, predicts }) =>
    [...places, ...against, ...predicts.map((one) => one.place)].includes(place),
  );
  if (here.length === 0 && owedAt(fold, place) !== null)
    return { lines: [`Still open: ${fold.wordsOf(place)}.`], settled: false, next: null };
  if (here.length === 0)
    return { lines: [`No cause is open at ${fold.wordsOf(place)} any more.`], settled: true, next: null };
  const lines = here.map((cause) => {
    const title = causeToTitle(cause);
    const against = cause.against.includes(place) ? ` ${fold.wordsOf(place)} now speaks against it.` : '';
    if (cause.certainty === 'confirmed') return `Settled. ${title}.${against}`;
    return `Still open. ${title}: ${CERTAINTY_WORDS[cause.certainty].toLowerCase()}.${against}`;
  });
  const open = here.find(({ nextLook }) => nextLook !== null)?.nextLook;
  const next = open ? { place: open.place, words: lookToLine(fold.index, open) } : null;
  return { lines, settled: here.every(({ certainty }) => certainty === 'confirmed'), next };
}

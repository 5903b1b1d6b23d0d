// What is said right after a statement, for one place: the jack first, then the label, then the word. Data, not
// sentences with marks in them, so that every screen can set it in its own type.

import { jackOf, type PlaceId, placeToParts, unitOf } from '../../plan/identity.ts';
import { placeToWords, rackOfPlace } from '../../plan/planIndex.ts';
import type { PlaceState } from '../../record/looks.ts';
import type { PlugReading } from '../../record/readings.ts';
import type { Discrepancy } from '../../rules/discrepancy.ts';
import { otherEnds } from '../../rules/duplicateNumbers.ts';
import type { Fold } from '../../rules/fold.ts';

import { twinToNumber } from '../../rules/numbers.ts';
import { leadAsPlanned } from '../../rules/patchLeads.ts';
import { SEVERITIES } from '../../trade/kinds.ts';
import { nameToKey } from '../../trade/names.ts';
import { checkNext } from '../../walk/recheck.ts';
import { lookToPhotoWords } from '../words/photoTime.ts';
import { STATE_WORDS } from '../words/recordWords.ts';
import { renameVerdict } from '../words/renamingWords.ts';
import {
  adapterHere,
  inferredOpen,
  labelElsewhere,
  leadToWords,
  lookToWords,
  moreDiffer,
  nowCheck,
  otherEndToWords,
  planHere,
  stateAsPlanned,
  tagElsewhere,
  VERDICT_WORDS,
} from '../words/verdictWords.ts';
import { discrepancyToWords } from '../words/words.ts';

export interface Verdict {
  variant: 'as-planned' | 'differs' | 'question' | 'hazard' | 'note';
  place: PlaceId;
  /** Label of the jack alone: `P03`. */
  jack: string;
  label: string | null;
  /** `as planned`, `differs`, `empty, as planned` … without a full stop. */
  word: string;
  /** What is to be said besides, whole sentences with the place and the label in them. */
  second: string;
  /** The same for beside place, label and word: what these say already is not said again. */
  brief: string;
  /** What stands at the place. */
  state: PlaceState['type'];
  /** An order in words, such as "Plug nothing …"; only for hazards and undecided places. */
  order: string | null;
  /** Candidates when the text fits several cables and the person has to say which. */
  candidates: { id: string; label: string }[];
}

/** A plug or its absence in a word; null where a label, or several looks, say more. */
function stateWord(type: PlaceState['type']): string | null {
  switch (type) {
    case 'empty':
    case 'blanked':
    case 'unlabelled':
    case 'illegible':
    case 'plugged':
      return STATE_WORDS[type].brief;
    case 'label':
    case 'conflict':
    case 'unseen':
    case 'not-verified':
      return null;
  }
}

/** What stands at the place in question, looked up once. */
interface Here {
  fold: Fold;
  place: PlaceId;
  state: PlaceState;
  /** What was read there first. */
  reading: PlugReading | undefined;
  label: string | null;
  /** Worst first. */
  found: readonly Discrepancy[];
  /** The worst of them harms people or equipment. */
  hazard: boolean;
  /** An adapter is plugged in and no cable was read on it: that in words. */
  hanging: string | null;
}

/** What one kind of place is told; the rest of the verdict is the same for all. */
type Told = Pick<Verdict, 'variant' | 'word' | 'second'> & Partial<Verdict>;

export function verdictAt(fold: Fold, place: PlaceId): Verdict {
  const here = hereAt(fold, place);
  const parts = placeToParts(place);
  const told =
    whichCable(here) ??
    notLooked(here) ??
    checkedElsewhere(here) ??
    differs(here) ??
    asLead(here) ??
    asRenamed(here) ??
    recorded(here);
  return {
    place,
    jack: fold.index.jacks.get(place)?.label ?? (parts.type === 'jack' ? parts.jack : fold.wordsOf(place)),
    label: here.label,
    state: here.state.type,
    order: null,
    candidates: [],
    brief: told.second,
    ...told,
  };
}

function hereAt(fold: Fold, place: PlaceId): Here {
  const state = fold.stateAt(place);
  const [reading] = fold.readingsAt(place);
  const found = fold.discrepanciesAt(place);
  return {
    ...{ fold, place, state, reading, found },
    label: reading?.text ?? (state.type === 'illegible' ? (state.plugs[0]?.pattern ?? null) : null),
    hazard: found[0] !== undefined && SEVERITIES.indexOf(found[0].severity) <= SEVERITIES.indexOf('equipment'),
    hanging: hangingWords(fold, place),
  };
}

function whichCable({ fold, place }: Here): Told | null {
  const open = fold.readingsAt(place).find((reading) => reading.candidates.length > 0);
  if (!open) return null;
  return {
    variant: 'question',
    word: VERDICT_WORDS.whichCable,
    second: VERDICT_WORDS.fitsSeveral,
    candidates: open.candidates.map(({ id, label: text }) => ({ id, label: text })),
  };
}

/** What harms is told of a jack that nobody has looked at, too. */
function notLooked({ fold, place, state, hazard }: Here): Told | null {
  if (hazard) return null;
  if (state.type === 'unseen')
    return { variant: 'note', word: VERDICT_WORDS.notLooked, second: planWords(fold, place) };
  if (state.type !== 'not-verified') return null;
  const [first] = state.looks;
  if (first?.basis === 'inferred' && first.state !== 'refused')
    return { variant: 'note', word: VERDICT_WORDS.notProven, second: inferredOpen(state.reason ?? '') };
  return {
    variant: 'note',
    word: first?.state === 'refused' ? VERDICT_WORDS.notChecked : VERDICT_WORDS.notVisible,
    second: first?.reason || VERDICT_WORDS.staysOpen,
  };
}

/** "Now check P04.": here it is right, and what was read there before the work is what still differs. */
function checkedElsewhere({ fold, place }: Here): Told | null {
  const next = checkNext(fold, place);
  if (next.length === 0) return null;
  const near = (other: PlaceId) => unitOf(other) !== '' && unitOf(other) === unitOf(place);
  const words = next.map((other) =>
    near(other) ? (fold.index.jacks.get(other)?.label ?? jackOf(other)) : fold.wordsOf(other),
  );
  return { variant: 'as-planned', word: VERDICT_WORDS.asPlanned, second: nowCheck(words) };
}

function differs({ fold, place, state, reading, found, hazard, hanging }: Here): Told | null {
  const [worst] = found;
  if (!worst) return null;
  const blind = fold.started?.payload.blind === true;
  // Of a temporary number the other end is what counts; that no plan has it is no news. A hazard comes first.
  const unknown = !hazard && reading?.cable === null;
  const isTwin = unknown && twinToNumber(reading.text) !== null;
  const told = (isTwin && fold.ownDiscrepanciesAt(place).find(({ kind }) => kind === worst.kind)) || worst;
  // With no plan there is nothing to differ from: what was read is recorded, and what is odd about it is told behind.
  const unplanned = fold.revision === null;
  const twoEnded = isTwin || (unplanned && unknown);
  const words = discrepancyToWords(fold.index, told, { blind });
  const near = discrepancyToWords(fold.index, told, { blind, place, found: true });
  const said = (line: string, named: boolean) =>
    [twoEnded ? elsewhereWords(fold, place, named) : '', line, found.length > 1 ? moreDiffer(found.length - 1) : '']
      .filter(Boolean)
      .join(' ');
  const plainWord = hanging ?? stateWord(state.type) ?? (unplanned ? VERDICT_WORDS.recorded : VERDICT_WORDS.differs);
  return {
    variant: hazard ? 'hazard' : 'differs',
    ...(hanging !== null && !hazard ? { label: null } : {}),
    word: hazard ? words.title : plainWord,
    second: said(words.line, false),
    brief: said(near.line, true),
    order: words.order,
  };
}

function asLead({ fold, place, label }: Here): Told | null {
  const lead = leadAsPlanned(fold, place);
  if (!lead) return null;
  const same = label !== null && nameToKey(label) === nameToKey(lead.label);
  return { variant: 'as-planned', word: VERDICT_WORDS.asPlanned, second: leadToWords(label, lead.label, same) };
}

function asRenamed({ fold, place }: Here): Told | null {
  return renameVerdict(fold, place);
}

/** Nothing differs here. */
function recorded({ fold, place, state, reading, hanging }: Here): Told {
  const evidence = evidenceWords(fold, place);
  const word = stateWord(state.type);
  if (hanging !== null) return { label: null, variant: 'note', word: hanging, second: evidence };
  if (reading?.cable === null) {
    const said = (named: boolean) => `${evidence} ${elsewhereWords(fold, place, named)}`.trim();
    return { variant: 'note', word: VERDICT_WORDS.recorded, second: said(false), brief: said(true) };
  }
  if (word === null) return { variant: 'as-planned', word: VERDICT_WORDS.asPlanned, second: evidence };
  if (fold.revision === null) return { variant: 'note', word, second: evidence };
  const planned = fold.index.endsAt.get(place) ?? [];
  const asPlanned =
    (state.type === 'empty' || state.type === 'blanked') && planned.every(({ cable }) => cable.status !== 'in-use');
  return asPlanned
    ? { variant: 'as-planned', word: stateAsPlanned(word), second: evidence }
    : { variant: 'note', word, second: planWords(fold, place) };
}

function hangingWords(fold: Fold, place: PlaceId): string | null {
  const adapter = fold.stateAt(place).plugs.flatMap((plug) => plug.adapter ?? [])[0];
  if (adapter === undefined || fold.readingsAt(place).some(({ cable }) => cable !== null)) return null;
  return adapterHere(fold.index.units.get(nameToKey(adapter))?.label ?? adapter);
}

/** Where else a label stands that no plan knows: the second end of a cable is worth hearing at once. */
function elsewhereWords(fold: Fold, place: PlaceId, isNamed: boolean): string {
  const text = fold.readingsAt(place)[0]?.text ?? '';
  const { places, twice } = otherEnds(fold, text, place);
  if (twinToNumber(text) === null) return labelElsewhere(text, places.map(fold.wordsOf), twice);
  const words = places.map((other) => withRack(fold, other));
  return tagElsewhere(isNamed ? null : text, words, twice);
}

function withRack({ index, wordsOf }: Fold, place: PlaceId): string {
  const rack = rackOfPlace(index, place);
  return rack === null ? wordsOf(place) : `${index.racks.get(rack)?.label ?? rack} ${wordsOf(place)}`;
}

/** Basis and time, and how the other end stands: "By eye. From end MIO31 NET: not seen yet." */
function evidenceWords(fold: Fold, place: PlaceId): string {
  const look = fold.stateAt(place).looks.at(-1);
  const how = look ? lookToWords(look.basis, look.teller, lookToPhotoWords(fold, look)) : '';
  const cable = fold.readingsAt(place)[0]?.cable;
  const planned = cable ? fold.index.cables.get(cable) : undefined;
  const other = planned?.ends.find((end) => end.place !== place);
  if (!cable || !other) return how;
  const seen = fold.statusOf(cable).ends.find(({ end }) => end === other.end)?.seen ?? 'not-seen';
  const where = other.place ? placeToWords(fold.index, other.place) : null;
  return `${how} ${otherEndToWords(other.end, where, seen)}`.trim();
}

function planWords(fold: Fold, place: PlaceId): string {
  if (fold.revision === null) return '';
  return planHere((fold.index.endsAt.get(place) ?? []).map(({ cable }) => cable.label));
}

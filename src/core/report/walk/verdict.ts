// What is said right after a statement, for one place: the jack first, then the label, then the word. Data, not
// sentences with marks in them, so that every screen can set it in its own type.

import { jackOf, type PlaceId, placeToParts, unitOf } from '../../plan/identity.ts';
import type { Cable } from '../../plan/model.ts';
import { placeToWords, rackOfPlace } from '../../plan/planIndex.ts';
import type { PlaceState } from '../../record/looks.ts';
import { otherEnds } from '../../rules/duplicateNumbers.ts';
import type { Fold } from '../../rules/fold.ts';
import { twinToNumber } from '../../rules/numbers.ts';
import { leadAsPlanned } from '../../rules/patchLeads.ts';
import { SEVERITIES } from '../../trade/kinds.ts';
import { nameToKey } from '../../trade/names.ts';
import { checkNext } from '../../walk/recheck.ts';
import { lookToPhotoWords } from '../words/photoTime.ts';
import { listed } from '../words/plain.ts';
import { STATE_WORDS } from '../words/recordWords.ts';
import { renameVerdict } from '../words/renamingWords.ts';
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

export function verdictAt(fold: Fold, place: PlaceId): Verdict {
  const { index } = fold;
  const parts = placeToParts(place);
  const jack = index.jacks.get(place)?.label ?? (parts.type === 'jack' ? parts.jack : fold.wordsOf(place));
  const state = fold.stateAt(place);
  const readings = fold.readingsAt(place);
  const label = readings[0]?.text ?? (state.type === 'illegible' ? (state.plugs[0]?.pattern ?? null) : null);
  const found = fold.discrepanciesAt(place);
  const candidates: Verdict['candidates'] = [];
  const base = { place, jack, label, order: null, candidates, state: state.type };
  const both = (second: string, brief = second) => ({ second, brief });
  const open = readings.find((reading) => reading.candidates.length > 0);
  if (open) {
    return {
      ...base,
      variant: 'question',
      word: 'which one is it?',
      ...both('The text fits more than one cable.'),
      candidates: open.candidates.map(({ id, label: text }) => ({ id, label: text })),
    };
  }
  const [worst] = found;
  const hazard = worst !== undefined && SEVERITIES.indexOf(worst.severity) <= SEVERITIES.indexOf('equipment');
  // What harms is told of a jack that nobody has looked at, too.
  if (state.type === 'unseen' && !hazard)
    return { ...base, variant: 'note', word: 'not looked at yet', ...both(planWords(fold, place)) };
  if (state.type === 'not-verified' && !hazard) {
    const word =
      state.looks[0]?.state === 'refused'
        ? 'not checked'
        : state.looks[0]?.basis === 'inferred'
          ? 'not proven'
          : 'cannot be seen';
    return {
      ...base,
      variant: 'note',
      word,
      ...both(unlookedWords(state)),
    };
  }
  const hanging = hangingWords(fold, place);
  const next = checkNext(fold, place);
  if (next.length > 0)
    return { ...base, variant: 'as-planned', word: 'as planned', ...both(checkWords(fold, place, next)) };
  if (worst) {
    const blind = fold.started?.payload.blind === true;
    // Of a temporary number the other end is what counts; that no plan has it is no news. A hazard comes first.
    const isTwin = !hazard && readings[0]?.cable === null && twinToNumber(readings[0].text) !== null;
    const told = (isTwin && fold.ownDiscrepanciesAt(place).find(({ kind }) => kind === worst.kind)) || worst;
    // With no plan there is nothing to differ from: what was read is recorded, and what is odd about it is told behind.
    const unplanned = fold.revision === null;
    const twoEnded = isTwin || (unplanned && !hazard && readings[0]?.cable === null);
    const words = discrepancyToWords(index, told, { blind });
    const near = discrepancyToWords(index, told, { blind, place, found: true });
    const more =
      found.length > 1 ? `And ${found.length - 1} more ${found.length === 2 ? 'difference' : 'differences'}.` : '';
    const said = (...parts: string[]) => parts.filter(Boolean).join(' ');
    return {
      ...base,
      variant: hazard ? 'hazard' : 'differs',
      ...(hanging && !hazard ? { label: null } : {}),
      word: hazard ? words.title : (hanging ?? stateWord(state.type) ?? (unplanned ? 'recorded' : 'differs')),
      second: said(twoEnded ? elsewhereWords(fold, place, false) : '', words.line, more),
      brief: said(twoEnded ? elsewhereWords(fold, place, true) : '', near.line, more),
      order: words.order,
    };
  }
  const lead = leadAsPlanned(fold, place);
  if (lead) return { ...base, variant: 'as-planned', word: 'as planned', ...both(leadWords(lead, label)) };
  const renamed = renameVerdict(fold, place);
  if (renamed) return { ...base, ...both(renamed.second), ...renamed };
  const planned = index.endsAt.get(place) ?? [];
  const word = stateWord(state.type);
  const evidence = evidenceWords(fold, place);
  if (hanging) return { ...base, label: null, variant: 'note', word: hanging, ...both(evidence) };
  if (readings[0]?.cable === null) {
    const [second, brief] = [false, true].map((named) => `${evidence} ${elsewhereWords(fold, place, named)}`.trim());
    return { ...base, variant: 'note', word: 'recorded', ...both(second!, brief) };
  }
  if (!word) return { ...base, variant: 'as-planned', word: 'as planned', ...both(evidence) };
  if (fold.revision === null) return { ...base, variant: 'note', word, ...both(evidence) };
  const asPlanned =
    (state.type === 'empty' || state.type === 'blanked') && planned.every(({ cable }) => cable.status !== 'in-use');
  return asPlanned
    ? { ...base, variant: 'as-planned', word: `${word}, as planned`, ...both(evidence) }
    : { ...base, variant: 'note', word, ...both(planWords(fold, place)) };
}

/** A lead goes by its two jacks; what is printed on it is a note. */
function leadWords(lead: Cable, label: string | null): string {
  const joins = 'It joins the two jacks that the plan joins here.';
  if (label === null) return `${joins} It has no number; plan ${lead.label}.`;
  return nameToKey(label) === nameToKey(lead.label) ? joins : `${joins} It is marked ${label}, plan ${lead.label}.`;
}

/** "T07 is plugged in here": the plug is that of an adapter, and no cable was read on it. */
function hangingWords(fold: Fold, place: PlaceId): string | null {
  const adapter = fold.stateAt(place).plugs.flatMap((plug) => plug.adapter ?? [])[0];
  if (adapter === undefined || fold.readingsAt(place).some(({ cable }) => cable !== null)) return null;
  return `${fold.index.units.get(nameToKey(adapter))?.label ?? adapter} is plugged in here`;
}

/** "Now check P04.": what was read there before the work is what still differs. */
function checkWords(fold: Fold, place: PlaceId, next: readonly PlaceId[]): string {
  const near = (other: PlaceId) => unitOf(other) !== '' && unitOf(other) === unitOf(place);
  const words = next.map((other) =>
    near(other) ? (fold.index.jacks.get(other)?.label ?? jackOf(other)) : fold.wordsOf(other),
  );
  return `Now check ${listed(words)}.`;
}

function unlookedWords({ looks, reason }: PlaceState): string {
  const [first] = looks;
  if (first?.basis !== 'inferred') return first?.reason || 'This is not a check: it stays open in the report.';
  return `${(reason ?? '').replace(/^./, (letter) => letter.toUpperCase())}. It stays open in the report.`;
}

/** Where else a label stands that no plan knows: the second end of a cable is worth hearing at once. */
function elsewhereWords(fold: Fold, place: PlaceId, isNamed: boolean): string {
  const text = fold.readingsAt(place)[0]?.text ?? '';
  const { places, twice } = otherEnds(fold, text, place);
  if (twinToNumber(text) !== null) {
    const at = places.map((other) => withRack(fold, other)).join(', ');
    const again = twice ? ' It is a duplicate: see More, Temporary tags.' : '';
    if (at === '') return `${isNamed ? 'Other end not seen yet.' : `${text}: other end not seen yet.`}${again}`;
    return `${isNamed ? `Other end at ${at}.` : `${text}: other end at ${at}.`}${again}`;
  }
  const at = places.map((other) => fold.wordsOf(other)).join(', ');
  const again = twice ? ` ${text} is a duplicate.` : '';
  if (places.length === 0) return `Other end not seen yet.${again}`;
  return `${places.length === 1 ? `Both ends known: also at ${at}.` : `Also at ${at}.`}${again}`;
}

function withRack({ index, wordsOf }: Fold, place: PlaceId): string {
  const rack = rackOfPlace(index, place);
  return rack === null ? wordsOf(place) : `${index.racks.get(rack)?.label ?? rack} ${wordsOf(place)}`;
}

/** Basis and time, and how the other end stands: "By eye. From end MIO31 NET: not seen yet." */
function evidenceWords(fold: Fold, place: PlaceId): string {
  const basis = { seen: 'By eye', followed: 'Followed', page: 'Off the page', told: 'Told', inferred: 'Inferred' };
  const look = fold.stateAt(place).looks.at(-1);
  const photo = look && lookToPhotoWords(fold, look);
  const words = look
    ? [photo ? `R${photo.slice(1)}.` : `${basis[look.basis]}${look.teller ? ` by ${look.teller}` : ''}.`]
    : [];
  const cable = fold.readingsAt(place)[0]?.cable;
  const planned = cable ? fold.index.cables.get(cable) : undefined;
  const other = planned?.ends.find((end) => end.place !== place);
  if (cable && other) {
    const name = other.end === 'A' ? 'From end' : other.end === 'B' ? 'To end' : `End ${other.end}`;
    const seen = fold.statusOf(cable).ends.find(({ end }) => end === other.end)?.seen;
    const how = {
      'as-planned': 'seen as planned',
      differs: 'differs',
      'not-verified': 'could not be seen',
      'not-seen': 'not seen yet',
    };
    const where = other.place ? placeToWords(fold.index, other.place) : 'not in the plan';
    words.push(`${name} ${where}: ${how[seen ?? 'not-seen']}.`);
  }
  return words.join(' ');
}

function planWords(fold: Fold, place: PlaceId): string {
  if (fold.revision === null) return '';
  const planned = fold.index.endsAt.get(place) ?? [];
  return planned.length > 0 ? `Plan ${planned.map(({ cable }) => cable.label).join(', ')}.` : 'Plan has nothing here.';
}

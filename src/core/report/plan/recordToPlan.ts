// What was found becomes the plan: racks, units and jacks as described, cables from the labels that stand. What nobody
// knows stays in it as not known. The same record gives the same bytes on every phone: no time, author or chance inside.

import { isSlot, type PlaceId, placeToParts } from '../../plan/identity.ts';
import type { Cable, CableEnd, Jack, Plan, Unit } from '../../plan/model.ts';
import { settingKey } from '../../plan/planIndex.ts';
import type { Look } from '../../record/looks.ts';
import { whichEnd } from '../../rules/cableDiscrepancies.ts';
import { issuerAt } from '../../rules/duplicateNumbers.ts';
import type { Fold } from '../../rules/fold.ts';
import { duplicateNumbers } from '../../rules/numbers.ts';
import { findContradictions } from '../../schedule/build/contradictions.ts';
import { nameToKey } from '../../trade/names.ts';

export interface RecordCounts {
  racks: number;
  units: number;
  jacks: number;
  bothEnds: number;
  oneEnd: number;
  /** Plugs without a readable label, whose other end nobody followed. */
  unknown: number;
  /** Jacks where looks differ: nothing is taken from them but a note. */
  differ: number;
}

/** @param parent Hash of the plan revision that the audit was bound to; null when it began with none. */
export function recordToPlan(fold: Fold, name: string, parent: string | null): { plan: Plan; counts: RecordCounts } {
  const { index } = fold;
  const { units, jacks } = withSeenPlaces(fold);
  const taken = new Set(index.plan.cables.map(({ id }) => id));
  const cables = [...index.plan.cables.map((cable) => plannedAsSeen(fold, cable)), ...newCables(fold, taken)];
  const byId = new Map(jacks.map((jack) => [jack.id, jack]));
  const plan: Plan = {
    format: 'asfound-plan',
    version: 1,
    name,
    parent,
    origin: 'walk',
    source: null,
    racks: index.plan.racks,
    units,
    jacks,
    cables,
    settings: settingsAsRead(fold),
    guesses: [],
    contradictions: findContradictions(cables, byId, units),
  };
  const known = cables.filter(({ label }) => label !== '');
  const placed = (cable: Cable) => cable.ends.filter(({ place }) => place !== null).length;
  return {
    plan,
    counts: {
      racks: plan.racks.length,
      units: units.length,
      jacks: jacks.length,
      bothEnds: cables.filter((cable) => placed(cable) > 1).length,
      oneEnd: known.filter((cable) => placed(cable) < 2).length,
      unknown: cables.filter((cable) => cable.label === '' && placed(cable) < 2).length,
      differ: [...fold.seenPlaces()].filter((place) => fold.stateAt(place).type === 'conflict').length,
    },
  };
}

/** Units and jacks of the plan and of descriptions, and those that a statement alone names. */
function withSeenPlaces(fold: Fold): { units: Unit[]; jacks: Jack[] } {
  const { index } = fold;
  const units = [...index.plan.units];
  const jacks = [...index.plan.jacks];
  const unitIds = new Set(units.map(({ id }) => id));
  for (const place of [...fold.seenPlaces()].sort()) {
    const parts = placeToParts(place);
    if (parts.type !== 'jack' || index.jacks.has(place)) continue;
    const said = fold.looks.standing(place)[0]?.said ?? '';
    const label = said.split(' ').slice(1).join(' ') || parts.jack;
    jacks.push({ id: place, unit: parts.unit, label, mult: false, spare: false, implied: true });
    if (unitIds.has(parts.unit)) continue;
    unitIds.add(parts.unit);
    units.push({
      id: parts.unit,
      label: said.split(' ')[0] || parts.unit,
      heightU: 1,
      mounted: 'front',
      faces: [],
      implied: true,
    });
  }
  return { units, jacks };
}

/**
 * A planned cable with its ends where its labels stand. An end that nobody saw keeps its planned place, unless the jack
 * was seen empty: then nobody knows where it is, and a note tells where it was planned.
 */
function plannedAsSeen(fold: Fold, cable: Cable): Cable {
  const found = new Map<string, string>();
  for (const place of fold.placesOfCable(cable.id)) {
    const mark = fold.readingsAt(place).find((reading) => reading.cable === cable.id)?.mark ?? null;
    const end = whichEnd(fold, cable, place, mark);
    if (end !== null && !found.has(end)) found.set(end, place);
  }
  const gone = (place: PlaceId | null) =>
    place !== null && cable.status === 'in-use' && BARE.has(fold.stateAt(place).type) ? place : null;
  const notes = cable.notes ? [cable.notes] : [];
  const ends = cable.ends.map((end) => {
    const place = found.get(end.end);
    if (place !== undefined) return place === end.place ? end : endAt(fold, end.end, place);
    const was = gone(end.place);
    if (was === null) return end;
    notes.push(`planned at ${fold.wordsOf(was)}, seen empty`);
    return endAt(fold, end.end, null);
  });
  return notes.length === 0 ? { ...cable, ends } : { ...cable, ends, notes: notes.join('; ') };
}

const BARE: ReadonlySet<string> = new Set(['empty', 'blanked']);
const PLUGGED: ReadonlySet<string> = new Set(['label', 'illegible', 'unlabelled', 'plugged']);

function endAt(fold: Fold, end: string, place: PlaceId | null): CableEnd {
  if (place === null) return { end, place: null, unit: '', jack: '' };
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return { end, place: null, location: fold.wordsOf(place), unit: '', jack: '' };
  const unit = fold.index.units.get(parts.unit)?.label ?? parts.unit;
  return { end, place, unit, jack: fold.index.jacks.get(place)?.label ?? parts.jack };
}

/** Cables that no plan has: by label where one stands, by the way they were followed, else one end of something. */
function newCables(fold: Fold, taken: Set<string>): Cable[] {
  const places = [...fold.seenPlaces()].filter((place) => !isSlot(place)).sort();
  const byName = new Map<string, NewCable>();
  const nameless = new Map<string, { ends: string[]; differ: string | null }>();
  const done = new Set<string>();
  const marked = markedNames(fold, places);
  const given = duplicateNumbers(fold);
  for (const place of places) {
    const state = fold.stateAt(place);
    const unknown = fold.readingsAt(place).filter(({ cable }) => cable === null);
    for (const { text } of unknown) {
      const { base, mark } = marked.get(nameToKey(text)) ?? { base: text.trim(), mark: null };
      // One number that two people gave is two cables.
      const key = [nameToKey(base), issuerAt(given, text, place) ?? ''].join(' ').trim();
      const one = byName.get(key) ?? { label: base, ends: [], others: [] };
      byName.set(key, one);
      // A followed far end without a label of its own is the other end of this cable.
      for (const at of [place, ...bareEnds(fold, place)]) {
        if (!one.ends.some((end) => end.place === at)) one.ends.push({ place: at, mark: at === place ? mark : null });
        done.add(at);
      }
    }
    if (unknown.length > 0 || done.has(place)) continue;
    const differ = state.type === 'conflict' && state.looks.some((look) => PLUGGED.has(look.state));
    // The plan's own cable may well be it; that is the plan's word, and it stays.
    if ((!differ && (!PLUGGED.has(state.type) || state.type === 'label')) || fold.index.endsAt.has(place)) continue;
    const ends = differ ? [place] : [place, ...bareEnds(fold, place)];
    for (const at of ends) done.add(at);
    nameless.set(place, { ends, differ: differ ? looksInWords(state.looks) : null });
  }
  joinFollowed(fold, places, byName);
  const id = (label: string) => {
    let next = label;
    for (let n = 2; taken.has(next); n++) next = `${label}~${n}`;
    taken.add(next);
    return next;
  };
  const named = [...new Set(byName.values())].map(({ label, ends, others }): Cable => {
    const letters = lettersFor(ends.map(({ mark }) => mark));
    const placed = ends.map(({ place }, i) => endAt(fold, letters[i]!, place));
    const both = placed.length > 1 ? placed : [...placed, endAt(fold, letters[0] === 'A' ? 'B' : 'A', null)];
    return {
      id: id(nameToKey(label)),
      label,
      ends: both.sort((a, b) => (a.end < b.end ? -1 : 1)),
      status: 'in-use',
      onAir: false,
      ...(others.length > 0 ? { notes: `followed; also reads ${others.join(', ')}` } : {}),
    };
  });
  const blank = [...nameless.values()].map(({ ends, differ }): Cable => {
    const placed = ends.map((place, i) => endAt(fold, String.fromCharCode(65 + i), place));
    const notes =
      differ !== null
        ? `looks differ: ${differ}`
        : placed.length > 1
          ? 'no label; followed'
          : 'no label; other end not known';
    return {
      id: id('~1'),
      label: '',
      ends: placed.length > 1 ? placed : [...placed, endAt(fold, 'B', null)],
      status: 'in-use',
      onAir: false,
      notes,
    };
  });
  return [...named, ...blank];
}

interface NewCable {
  label: string;
  ends: { place: PlaceId; mark: string | null }[];
  /** Other labels of the same cable. */
  others: string[];
}

/** A cable that was followed is one cable, whatever its ends bear: the label of the first place names it. */
function joinFollowed(fold: Fold, places: readonly PlaceId[], byName: Map<string, NewCable>): void {
  const at = new Map<string, NewCable[]>();
  for (const one of new Set(byName.values())) {
    for (const { place } of one.ends) at.set(place, [...(at.get(place) ?? []), one]);
  }
  const stands = (place: PlaceId) => {
    const here = [...new Set(at.get(place) ?? [])];
    // Of several plugs in one place nobody said which was followed.
    return here.length === 1 && fold.stateAt(place).plugs.length === 1 ? here[0]! : null;
  };
  for (const place of places) {
    for (const far of fold.joined(place)) {
      const [one, other] = [stands(place), stands(far)];
      if (!one || !other || one === other) continue;
      one.others.push(other.label, ...other.others);
      for (const end of other.ends) if (!one.ends.some((known) => known.place === end.place)) one.ends.push(end);
      for (const end of other.ends) at.set(end.place, [one]);
      for (const [key, value] of byName) if (value === other) byName.set(key, one);
    }
  }
}

/** What differing looks say, without a name or a time: a plan has none. */
function looksInWords(looks: readonly Look[]): string {
  const said = looks.map(
    ({ state, plugs }) =>
      plugs
        .flatMap(({ labels }) => labels.map(({ text }) => text.trim()))
        .sort()
        .join(' | ') || state,
  );
  return [...new Set(said)].sort().join(', ');
}

/** Far ends of what was followed from here that bear no label of their own. */
function bareEnds(fold: Fold, place: PlaceId): string[] {
  return fold.joined(place).filter((far) => fold.readingsAt(far).length === 0);
}

/** Labels with an end mark, where the same name stands with another mark or without one: `X7-A` and `X7-B`. */
function markedNames(fold: Fold, places: readonly PlaceId[]): Map<string, { base: string; mark: string }> {
  const texts = new Map<string, string>();
  for (const place of places) {
    for (const { cable, text } of fold.readingsAt(place)) if (cable === null) texts.set(nameToKey(text), text.trim());
  }
  const split = new Map<string, { base: string; mark: string }>();
  const bases = new Map<string, number>();
  for (const [key, text] of texts) {
    const match = /^(.+?)[\s\-_/.]\s?([A-Z])$/.exec(text);
    if (!match) continue;
    split.set(key, { base: match[1]!.trim(), mark: match[2]! });
    const base = nameToKey(match[1]!);
    bases.set(base, (bases.get(base) ?? (texts.has(base) ? 1 : 0)) + 1);
  }
  return new Map([...split].filter(([, { base }]) => (bases.get(nameToKey(base)) ?? 0) > 1));
}

/** A letter for each end: its mark where it has one of its own, else the next that is free. */
function lettersFor(marks: readonly (string | null)[]): string[] {
  const used = new Set<string>();
  const fixed = marks.map((mark) => {
    if (mark === null || used.has(mark)) return null;
    used.add(mark);
    return mark;
  });
  return fixed.map((mark) => {
    if (mark !== null) return mark;
    let code = 65;
    while (used.has(String.fromCharCode(code))) code += 1;
    const letter = String.fromCharCode(code);
    used.add(letter);
    return letter;
  });
}

/** The plan's settings with what was read in their place, and what was read beside them. */
function settingsAsRead(fold: Fold): Plan['settings'] {
  const planned = fold.index.plan.settings.map((setting) => ({
    ...setting,
    value: fold.settings.valueOf(setting) ?? setting.value,
  }));
  const known = new Set(planned.map(settingKey));
  const read = fold.settings
    .readings()
    .filter((setting) => !known.has(settingKey(setting)))
    .map(({ unit, place, name, value }) => ({ unit, ...(place ? { place } : {}), name, value }));
  return [...planned, ...read.sort((a, b) => (settingKey(a) < settingKey(b) ? -1 : 1))];
}

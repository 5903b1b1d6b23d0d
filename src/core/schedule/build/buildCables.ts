// Cables of the plan out of the rows: ids, ends, places, settings of their inputs; rows that list one cable from both
// of its ends are joined.

import type { Cable, CableEnd } from '../../plan/model.ts';
import { nameToKey, nameToLoose } from '../../trade/names.ts';
import type { Notebook, RawCable, RawEnd } from '../rows/readTypes.ts';
import { saysBothLegs } from '../words.ts';
import type { Equipment } from './buildUnits.ts';
import type { Units } from './resolveUnits.ts';

const sideKey = (ends: readonly RawEnd[]) =>
  ends
    .map((end) => `${nameToLoose(end.unit)}/${nameToLoose(end.jack)}`)
    .sort()
    .join('+');

/**
 * A list that gives every cable twice, once from each end, and sheets per rack that both name the cable between them:
 * the later row is left out and said so. The same row twice on one sheet is not joined: that is for the desk check.
 */
export function joinMirrored(cables: readonly RawCable[], notebook: Notebook): RawCable[] {
  const seen = new Map<string, RawCable>();
  return cables.filter((cable) => {
    const [from, to] = [sideKey(cable.from), sideKey(cable.to)];
    const number = nameToKey(cable.label);
    const mirror = seen.get(`${number} ${to} ${from}`);
    const same = seen.get(`${number} ${from} ${to}`);
    const elsewhere = same && same.sheet !== cable.sheet ? same : undefined;
    const other = from === to ? elsewhere : (mirror ?? elsewhere);
    if (number !== '' && other) {
      const where = other.sheet === cable.sheet ? '' : `${other.sheet}, `;
      const readAs = other === mirror ? 'the same cable seen from its other end' : 'the same cable on another sheet';
      notebook.guess(
        'same-cable',
        cable.sheet,
        cable.row,
        undefined,
        `${cable.label}, also in ${where}row ${other.row}`,
        readAs,
      );
      keepRest(other, cable, `${where}row ${other.row}`, notebook);
      return false;
    }
    if (!same) seen.set(`${number} ${from} ${to}`, cable);
    return true;
  });
}

/** What the row left out says beside the ends: taken over where the other is silent, asked about where it differs. */
export function keepRest(kept: RawCable, left: RawCable, where: string, notebook: Notebook): void {
  for (const [part, words] of REST) {
    if (left[part] === '' || left[part] === kept[part]) continue;
    if (kept[part] === '') kept[part] = left[part];
    else
      notebook.ask(
        'which-is-right',
        left.sheet,
        left.row,
        undefined,
        left[part],
        `${upperFirst(where)} has the ${words} ${kept[part]}. Which is right?`,
      );
  }
  kept.signal ??= left.signal;
  kept.leg ??= left.leg;
  kept.onAir ||= left.onAir;
  kept.mult ||= left.mult;
  if (left.notes !== '' && left.notes !== kept.notes) kept.notes = [kept.notes, left.notes].filter(Boolean).join('; ');
  if (left.status !== kept.status)
    notebook.ask(
      'which-is-right',
      left.sheet,
      left.row,
      undefined,
      left.status,
      `${upperFirst(where)} has the status ${kept.status}. Which is right?`,
    );
  for (const setting of left.settings)
    if (!kept.settings.some(({ name }) => name === setting.name)) kept.settings.push(setting);
  for (const end of [...left.from, ...left.to]) {
    const same = [...kept.from, ...kept.to].find((one) => sideKey([one]) === sideKey([end]));
    if (!same) continue;
    same.connector ||= end.connector;
    if (same.location === '') Object.assign(same, { location: end.location, rack: end.rack, room: end.room });
    same.u ??= end.u;
  }
}

const REST = [
  ['length', 'length'],
  ['cableType', 'type'],
  ['circuit', 'circuit'],
  ['signalText', 'signal'],
] as const;
const upperFirst = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

export function buildCables(
  raws: readonly RawCable[],
  units: Units,
  equipment: Equipment,
  notebook: Notebook,
): Cable[] {
  // A jack list's own word about an input comes before what a cable's notes say.
  const told = new Set(equipment.settings.map((setting) => `${setting.place} ${setting.name}`));
  const taken = new Set<string>();
  const counts = new Map<string, number>();
  const claim = (label: string) => {
    const key = nameToKey(label);
    let n = counts.get(key) ?? (key === '' ? 1 : 0);
    let id: string;
    do {
      n += 1;
      id = n === 1 ? key : `${key}~${n}`;
    } while (taken.has(id));
    counts.set(key, n);
    taken.add(id);
    return id;
  };
  return raws.map((raw) => {
    const id = claim(raw.label);
    const [firstFrom, ...moreFrom] = raw.from;
    const [firstTo, ...moreTo] = raw.to;
    const ends = [firstFrom, firstTo, ...moreFrom, ...moreTo]
      .flatMap((end) => (end ? legsToEnds(end, units, equipment) : []))
      .sort((a, b) => Number(a.isMore) - Number(b.isMore))
      .map(({ end }, i) => toEnd(raw, end, toLetter(i), units, equipment, notebook));
    if (raw.mult) markMult(ends, equipment);
    addSettings(raw, ends, equipment, told);
    return {
      id,
      label: raw.label,
      ends,
      ...(raw.signal ? { signal: raw.signal } : {}),
      ...(raw.signalText === '' ? {} : { signalText: raw.signalText }),
      ...(raw.circuit === '' ? {} : { circuit: raw.circuit }),
      ...(raw.cableType === '' ? {} : { type: raw.cableType }),
      ...(raw.length === '' ? {} : { length: raw.length }),
      ...(raw.leg ? { leg: raw.leg } : {}),
      status: raw.status,
      onAir: raw.onAir,
      ...(raw.notes === '' ? {} : { notes: raw.notes }),
      origin: { sheet: raw.sheet, row: raw.row },
    };
  });
}

/** `IN L/R` is one place with two legs until a jack list names two. */
function legsToEnds(end: RawEnd, units: Units, equipment: Equipment): { end: RawEnd; isMore: boolean }[] {
  const unit = end.sure && saysBothLegs(end.jack) ? units.find(end) : null;
  const before = end.jack.replace(/\s*(l\s?[/+&]\s?r|lr|st|stereo)$/i, '');
  const legs = unit && !equipment.listedJack(unit, end.jack) ? ['L', 'R'] : [];
  const jacks = legs.flatMap((leg) => (unit ? (equipment.listedJack(unit, `${before} ${leg}`.trim()) ?? []) : []));
  if (jacks.length !== 2) return [{ end, isMore: false }];
  return jacks.map((jack, i) => ({ end: { ...end, jack: jack.label }, isMore: i > 0 }));
}

/** A, B … Z, then AA: a breakout of 26 tails is a loom, but it is read all the same. */
function toLetter(i: number): string {
  return i < 26 ? String.fromCharCode(65 + i) : toLetter(Math.floor(i / 26) - 1) + toLetter(i % 26);
}

function toEnd(
  raw: RawCable,
  end: RawEnd,
  letter: string,
  units: Units,
  equipment: Equipment,
  notebook: Notebook,
): CableEnd {
  const shown = {
    end: letter,
    ...(end.location === '' ? {} : { location: end.location }),
    unit: end.unit,
    jack: end.jack,
    ...(end.connector === '' ? {} : { connector: end.connector }),
  };
  const unit = units.find(end);
  if (!unit || !end.sure) {
    if (end.unit !== '' && end.sure) {
      notebook.ask('unit', raw.sheet, raw.row, end.column, end.unit, 'Several units have this name. Which one is it?');
    }
    return { ...shown, place: null };
  }
  if (end.jack === '') {
    const [only, ...others] = equipment.jacksOf(unit);
    if (!only || others.length > 0) {
      notebook.ask('jack', raw.sheet, raw.row, end.column, end.unit, 'Which jack of this unit?');
      return { ...shown, place: null };
    }
    notebook.guess('jack-read', raw.sheet, raw.row, end.column, end.unit, `${end.unit} ${only.label}, its only jack`);
    return { ...shown, jack: only.label, place: only.id };
  }
  const jack = equipment.jackAt(unit, end.jack, {
    sheet: raw.sheet,
    row: raw.row,
    column: end.jackColumn ?? end.column,
  });
  if (end.connector !== '' && jack.implied) jack.connector = end.connector;
  // What the label alone suggests gives way to what the cable here is said to carry.
  if (jack.implied && raw.signal) {
    jack.signal = raw.signal;
    if (raw.signal === 'telephone') delete jack.direction;
  }
  return { ...shown, place: jack.id };
}

function markMult(ends: readonly CableEnd[], equipment: Equipment): void {
  for (const end of ends) {
    const jack = end.place === null ? undefined : equipment.jacks.get(end.place);
    if (jack) jack.mult = true;
  }
}

/** Phantom, gain and the like belong to the input that the cable feeds: the end that is an input, else the to end. */
function addSettings(raw: RawCable, ends: readonly CableEnd[], equipment: Equipment, told: Set<string>): void {
  if (raw.settings.length === 0) return;
  const directionOf = (end: CableEnd) => (end.place === null ? undefined : equipment.jacks.get(end.place)?.direction);
  const input = ends.find((end) => directionOf(end) === 'in') ?? ends.find((end) => end.end === 'B');
  const jack = input?.place ? equipment.jacks.get(input.place) : undefined;
  if (!jack) return;
  for (const { name, value } of raw.settings) {
    const key = `${jack.id} ${name}`;
    if (told.has(key)) continue;
    told.add(key);
    const origin = { sheet: raw.sheet, row: raw.row };
    equipment.settings.push({ unit: jack.unit, place: jack.id, name, value, origin });
  }
}

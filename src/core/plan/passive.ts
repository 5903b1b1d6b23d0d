// Units that only hold sockets: panels, bays, boxes, plates. A cable on either side of one hole is no mistake, and a
// name printed there tells what comes by, not which way. Words only; what follows is told by whoever asks.
import type { Unit } from './model.ts';

const FORMS_WITH_TWO_SIDES: ReadonlySet<string> = new Set(['panel', 'patchbay', 'punch-block', 'trunk']);

/** Abbreviations of panel, bay, plate and block in front of a number, and what else is a box of sockets. Common practice, no source. */
const NAME = /^(pp|pb|wp|fp|tp|sb|fb|wb|jb)[\s-]?\d/i;
const WORDS =
  /\b(stage|wall|floor|junction|connector|break-?out|tie|terminal)[\s-]?(box|plate|panel|strip|block)\b|\b(wall|floor)box\b|\bpunch[\s-]?block\b|\bmults?\b|\bsplitter\b/i;

/** Does a signal merely pass here? By the unit's form, its own words, or the abbreviation it is named with. */
export function passesThrough(unit: Pick<Unit, 'label' | 'description' | 'form' | 'faces'>): boolean {
  if (unit.form !== undefined) return FORMS_WITH_TWO_SIDES.has(unit.form);
  return unit.faces.some(({ through }) => through) || saysPassive(unit.label, unit.description ?? '');
}

export function saysPassive(label: string, description: string): boolean {
  const words = `${label} ${description}`;
  return saysThrough(words) || WORDS.test(words) || (description === '' && NAME.test(label.trim()));
}

/** Words for what only passes a signal on. */
export function saysThrough(text: string): boolean {
  return /\b(patch ?panel|patch ?bay|panel|through|feed-?through|tie ?panel|wall ?plate)\b/i.test(text);
}

// One text that says where an end is, taken apart: place, unit, jack. Words only; other cells of the row, and what is
// guessed aloud, are for readEnds.ts.
import { nameToKey, nameToLoose } from '../../trade/names.ts';
import { looksLikeRack } from '../words.ts';

export interface KnownNames {
  /** Keys of units and racks that a list names. */
  units: ReadonlySet<string>;
  /** The same units without the separators beside letters, for names that rows spell another way. */
  loose: ReadonlySet<string>;
  racks: ReadonlySet<string>;
  /** Which unit a list has at which U: `slotKey` to its label. */
  slots: ReadonlyMap<string, string>;
}

export const slotKey = (rack: string, u: number) => `${nameToKey(rack)} ${u}`;

interface Place {
  location: string;
  rack: string;
  room: string;
  u: number | null;
}

const isRack = (text: string, known: Pick<KnownNames, 'racks'>) =>
  known.racks.has(nameToKey(text)) || looksLikeRack(text);

/** `R2`, `STA`, `R2 U30`, `Studio A`: rack or room, and a U where one is written. */
export function textToPlace(text: string, known: Pick<KnownNames, 'racks'>): Place {
  const location = text.trim();
  const withU = /^(.*?)\s*\b(?:R?U)\s?(\d{1,2})$/i.exec(location);
  const name = withU ? (withU[1] ?? '') : location;
  const u = withU ? Number(withU[2]) : null;
  if (isRack(name, known)) return { location, rack: name, room: '', u };
  // `Studio A R3`: the rack stands behind the room.
  const words = name.split(/\s+/);
  const last = words.at(-1) ?? '';
  if (words.length > 1 && isRack(last, known)) {
    return { location, rack: last, room: words.slice(0, -1).join(' '), u };
  }
  return { location, rack: '', room: name, u };
}

interface SplitEnd {
  location: string;
  unit: string;
  jack: string;
}

/** Words that a jack's name is made of, and what stands behind them. Common practice of makers and stations, no source. */
const JACK_WORD =
  /^(in|out|ins?|outs?|input|output|i\/?o|mic|line|aes|ana|dig|spdif|port|jack|pin|ch|channel|pr|pair|row|net|eth|lan|aux|pgm|mon|cue|tape|send|return|rtn|loop|wc|ref|sync|gpio?|gpo|com|sfp|tx|rx|main|insert|ins)$/i;
const JACK_TAIL = /^(\d{1,3}[a-z]?|[lr]|l[/+&]r|[ab])$/i;
/** Words that only together name a thing: `Patch panel 3` is no panel in a room called Patch. */
const COMPOUND =
  /^(patch|wall|stage|floor|punch|tie|junction|terminal|fib(re|er)|media|phone|power|cd|tape|dis(tribution)?)$/i;
/** What is no name by itself: the number behind one. */
const NUMBER_ONLY = /^(\d{1,4}|[a-z]|\d{1,2}[a-z])$/i;

/** The jack at the end of the words, which are shortened by it: `OUT 1` of `MIX OUT 1`, `I1` of `AIO21 I1`. */
function takeJack(words: string[]): string {
  if (words.length < 2) return '';
  const jack = [words.pop() ?? ''];
  const more = () => JACK_TAIL.test(jack[0] ?? '') || JACK_WORD.test(jack[0] ?? '');
  while (words.length > 1 && more() && JACK_WORD.test(words.at(-1) ?? '')) jack.unshift(words.pop() ?? '');
  return jack.join(' ');
}

/** `RACK1 U12 P03`, `RACK1/U12/P03`: a rack, a U in it, and what stands behind; null for another text. */
function splitSlot(text: string, withJack: boolean, known: KnownNames): SplitEnd | null {
  const match = /^(.+?)[\s,/.:;_-]+R?U[\s.]?(\d{1,2})(?:[\s,/.:;_-]+(.*))?$/i.exec(text.trim());
  const [, rack = '', u = '', behind = ''] = match ?? [];
  if (!match || !isRack(rack.split(/\s+/).at(-1) ?? '', known)) return null;
  const words = behind.split(/\s+/).filter((word) => word !== '');
  const location = `${rack} U${u}`;
  if (!withJack) return { location, unit: words.join(' '), jack: '' };
  // One word, or words of a jack alone, are the jack of what is there.
  const jack = words.length > 1 && !JACK_WORD.test(words[0] ?? '') ? takeJack(words) : words.splice(0).join(' ');
  return { location, unit: words.join(' '), jack };
}

/** `AIO21:OUT1`, `AIO21 - OUT 1`, `AIO21, OUT 1`, `AIO21/OUT1`: a sign between unit and jack; null where there is none. */
function splitAtSign(text: string, known: KnownNames): SplitEnd | null {
  const [, before = '', behind = ''] =
    /^([^:,>]*?\p{L}[^:,>]*?)(?:\s*[:,>]\s*|\s+[-–—/]\s+)([^:,>]+)$/u.exec(text) ?? [];
  if (before !== '' && behind !== '') {
    // `Rack 2, AIO21 OUT 1`: a place stands in front of the sign where unit and jack stand behind it.
    const rest = behind.trim().split(/\s+/);
    if (isRack(before, known) || (rest.length > 1 && !JACK_WORD.test(rest[0] ?? '') && !JACK_TAIL.test(rest[0] ?? '')))
      return { ...splitUnit(behind.trim(), true, known), location: before };
    return { ...splitUnit(before, false, known), jack: behind.trim() };
  }
  // A stroke without blanks may belong to a name: only what looks like a jack stands behind it.
  const [, unit = '', jack = ''] = /^(\S*\p{L}\S*)\/([^\s/]+(?: \d+)?)$/u.exec(text) ?? [];
  const isJack = /^\p{L}+[ -]?\d+\p{L}?$/u.test(jack) || JACK_WORD.test(jack);
  return unit !== '' && isJack ? { location: '', unit, jack } : null;
}

/** No unit's name has more words, and none stands further behind: looking on would cost the cube of a cell's length. */
const NAME_WORDS = 12;
const WORDS_SEARCHED = 24;

/** Splits `R2 AIO21` or `R2 AIO21 I1`: by a known unit's name, else by what racks, jacks and names look like. */
export function splitUnit(text: string, withJack: boolean, known: KnownNames): SplitEnd {
  const words = text.trim().split(/\s+/);
  const searched = Math.min(words.length, WORDS_SEARCHED);
  for (let length = known.units.size === 0 ? 0 : Math.min(searched, NAME_WORDS); length >= 1; length -= 1) {
    for (let start = 0; start + length <= searched; start += 1) {
      const name = words.slice(start, start + length).join(' ');
      if (!known.units.has(nameToKey(name)) && !known.loose.has(nameToLoose(name))) continue;
      const rest = words
        .slice(start + length)
        .join(' ')
        .replace(/^[-–—:,/>]+\s*(?=\S)/, '');
      if (!withJack && rest !== '') continue;
      return { location: words.slice(0, start).join(' '), unit: name, jack: rest };
    }
  }
  const slot = splitSlot(text, withJack, known);
  if (slot) return slot;
  const parted = withJack ? splitAtSign(text, known) : null;
  if (parted) return parted;
  const jack = withJack ? takeJack(words) : '';
  const rackWords = [2, 1].find((length) => words.length >= length && isRack(words.slice(0, length).join(' '), known));
  if (rackWords !== undefined) {
    const location = words.slice(0, rackWords).join(' ');
    return { location, unit: words.slice(rackWords).join(' '), jack };
  }
  // Where no rack stands in front, the last word is the unit, with what it cannot do without.
  let from = words.length - 1;
  if (from > 0 && NUMBER_ONLY.test(words[from] ?? '')) from -= 1;
  while (from > 0 && COMPOUND.test(words[from - 1] ?? '')) from -= 1;
  return { location: words.slice(0, from).join(' '), unit: words.slice(from).join(' '), jack };
}

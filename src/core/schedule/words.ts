// The trade's words in the cells of a schedule: status, on-air, ditto, unknown, settings hidden in notes. Each function
// reads one text; who calls it writes the guess down.
import type { Direction, Leg } from '../trade/kinds.ts';
import { phantomIn, saysRibbon, textToPhantom } from '../trade/phantom.ts';

export function isDitto(text: string): boolean {
  const trimmed = text.trim();
  return DITTO_SIGN.test(trimmed) || DITTO_WORD.test(trimmed);
}

const DITTO_SIGN = /^(["”“„″〃]{1,3}|''|,,|-\s?(\|\||"|”|do)\s?-|[|¦↓⇓↑^\\]{1,2}|\/\/)$/i;
/** Common practice in English, German, French, Spanish, Italian, Portuguese, Dutch and the Nordic languages, no source. */
const DITTO_WORD =
  /^(((the )?same|as|see|like)( as)?( (the )?(row|line|one|cable))?( (above|before|over))?|as (the )?(previous|last)( (row|line|one))?|ditt?os?\.?|do\.|dto\.?|id\.|idem|[sw]\. ?o\.?|(siehe|wie|s\.) (oben|vor(her)?|zeile (dar)?über)|(gleich|ebenso|desgl(eichen)?\.?)|comme (ci-)?(dessus|avant)|voir (ci-)?dessus|(ver|igual( que)?|como) (arriba|acima|anterior|el anterior|la anterior)|(come|vedi|v\.) sopra|zie (boven|hierboven)|als (boven|hierboven)|som (ovan|over|ovenfor)|se (ovan|ovenfor))$/iu;

/** A cell that says that nobody knows. */
export function isUnknown(text: string): boolean {
  const trimmed = text.trim();
  return UNKNOWN.test(trimmed) || ELSEWHERE.test(trimmed) || isErrorCell(trimmed);
}

/** Not known, not decided, to be settled; the languages as above. */
const UNKNOWN =
  /^(\?+|\(\?+\)|t\.?b\.?[acdn]\.?|to (be )?(confirm|check|advise|define|determine|decide|verify)(e?d)?|not (yet )?(known|decided|confirmed|defined|assigned|allocated)|vif|verify in field|unknown|n\/?k|open|offen|unbekannt|unklar|noch (offen|unbekannt|zu klären)|zu klären|(wird|ist zu) (geklärt|klären)|folgt|inconnue?s?|[aà] (confirmer|d[eé]finir|pr[eé]ciser|voir|v[eé]rifier)|(a|por) (confirmar|definir|determinar)|desconocid[oa]|desconhecid[oa]|da (confermare|definire|verificare)|sconosciut[oa]|onbekend|nader te bepalen|n\.?t\.?b\.?|nog (te bepalen|onbekend)|okän[dt]|ukjent|ukendt)$/iu;

/** What stands there stands elsewhere: on a drawing, in a note, in another row. */
const ELSEWHERE =
  /^((see|as per|per|refer to|siehe|voir|ver|vedi|zie|se) (the )?(dwg|drg|drawing|sheet|print|plan|note|notes|remark|remarks|footnote|detail|zeichnung|anmerkung|bemerkung|fu(ß|ss)note|note|remarque|schéma|nota|notas|nota|schema|opmerking|noot)\b.*|(same )?as (no\.? ?|row |line |cable )?#?\p{L}{0,3}-?\d+)$/iu;

/** What a spreadsheet shows where a formula failed (ECMA-376 part 1, 18.17.3, and later ones from memory). */
function isErrorCell(text: string): boolean {
  return /^#(REF!|N\/A|VALUE!|NAME[?!]|DIV\/0!|NULL!|NUM!|SPILL!|CALC!|FIELD!|GETTING_DATA)$/i.test(text.trim());
}

/** A name's cell that holds a word about the cable instead: spare, or not connected. */
export function isSpareWord(text: string): boolean {
  return SPARE_WORD.test(text.trim());
}

const SPARE =
  'spare|unused|not used|not in use|free|frei|reserve|unbelegt|nicht belegt|libre|r[ée]serve|inutilis[ée]e?|non utilis[ée]e?|libero|riserva|non usato|livre|reserva|sin uso|vrij|reserve|niet gebruikt|ledig|reserv|vapaa';
/** The languages as above. `open` is no word for it: it may as well mean not decided. */
const SPARE_WORD = new RegExp(`^(${SPARE}|sp\\.?|future|n\\/?c|n\\.c\\.|nic|not connected|reserved)$`, 'iu');
/** Among other words only those that mean nothing else: `free to air` is no spare. */
const SPARE_STATUS = new RegExp(`\\b(spare|unused|not used|n\\/c|nic)\\b|^(${SPARE}|sp\\.?)$`, 'iu');

/**
 * What a spreadsheet may have made out of an identifier: `3-Apr`, `Apr-04`, `03/04/2019`, `1.00E+05`. Null for a text
 * that looks like itself; `1E5` does, since a spreadsheet never shows a number that way.
 */
export function eatenName(text: string): 'a date' | 'a number' | null {
  const trimmed = text.trim();
  if (DATES.some((date) => date.test(trimmed))) return 'a date';
  return /^-?\d([.,]\d+)?E[+-]\d{1,3}$/i.test(trimmed) ? 'a number' : null;
}

/** As spreadsheets shorten them in English, German, French and Spanish; `Out` and `Set` of others are jacks here. */
const MONTH =
  '(jan|ene|feb|fév|mar|mär|mrz|apr|avr|abr|may|mai|jun|jui|jul|aug|aoû|ago|sep|sept|oct|okt|nov|dec|dez|dic|déc)\\p{L}{0,6}\\.?';
const DATES = [
  new RegExp(`^\\d{1,2}[-. ]{1,2}${MONTH}([-. ]\\d{2,4})?$`, 'iu'),
  new RegExp(`^${MONTH}[-. ]\\d{1,4}$`, 'iu'),
  /^\d{1,2}\.\d{1,2}\.\d{4}$/,
  /^\d{1,2}\/\d{1,2}\/\d{4}$/,
  /^\d{4}-\d{2}-\d{2}$/,
];

/** A row that adds up the rows above it. */
export function isTotal(text: string): boolean {
  return /^(grand[ -]?|sub-?|gesamt|zwischen)?(totals?|sums?|summe)\b(?![ -]?\d)/i.test(text.trim());
}

/** A row under which signs and colours are explained, and nothing is listed any more. */
export function isLegendTitle(text: string): boolean {
  return /^(legend|key|colou?r (code|key)s?|colou?rs|abbreviations|symbols|legende|(document |rev(ision)? )?(history|log)|revisions?|change ?log|changes|contacts?|distribution( list)?|(general )?notes)\s*:?$/i.test(
    text.trim(),
  );
}

/** A row about the list itself: who made it, which page it is, where it ends. */
export function isSignature(text: string): boolean {
  return /^((prepared|drawn|checked|approved|printed|issued|revised|updated|compiled|surveyed)( by| on)?\s*:|(prepared|drawn|checked|approved|compiled) by\b|page \d+ (of|\/) ?\d+|end of (list|sheet|schedule|document)\b)/i.test(
    text.trim(),
  );
}

/** `reserved for studio 4`, `spare - was 12`: no name of a jack, whatever follows. */
export function isReserved(text: string): boolean {
  return /^(spare|reserved|future|unused|not used|free)\s*([-–,:(]|\b(for|until|from|if|when|was|after)\b).*\p{L}/iu.test(
    text.trim(),
  );
}

/** A cell that says that there is nothing. */
export function isNothing(text: string): boolean {
  return /^(-+|–+|—+|n\/?c|nic|n\/a|none|nil|x{1,3})$/i.test(text.trim());
}

export function textToStatus(text: string): 'spare' | 'future' | null {
  if (/\b(future|planned|reserved|not yet|to be (pulled|installed))\b/i.test(text)) return 'future';
  if (SPARE_STATUS.test(text.trim())) return 'spare';
  return null;
}

/** Words that say that this carries the programme now. `on-air tally` and `on-air light` are closures, not the air itself. */
export function saysOnAir(text: string): boolean {
  return ON_AIR.test(text) && !NOT_ON_AIR.test(text);
}

const ON_AIR = /\bon[ -]?air\b(?!\s*[- ]?(tally|light|lamp|sign|switch))|\bdo not touch\b|\bhot\b|\btx prog/i;
/** `not on air`, `never on air, training`, `no longer on-air`, `on air: no`. */
const NOT_ON_AIR =
  /\b(not|no|never|isn'?t|wasn'?t|no longer|non|nicht|nie|kein|pas|jamais|niet|nooit|nunca|mai)( (normally|usually|currently|yet|to be|be|an?|the|en|el|in|sur))*[ -]+(on[ -]?air|hot)\b|\bon[ -]?air\s*[:=?]\s*(no|n|off|nein|non)\b/i;

export function saysMult(text: string): boolean {
  return /\bmult(ed|iple|ed together)?\b|\bparallel(ed)?\b/i.test(text);
}

interface FoundSetting {
  name: 'phantom' | 'gain' | 'microphone';
  value: string;
  said: string;
}

/** `+48 OFF G52`, `ribbon`, `mic cond`: settings that hide in notes, signal words and jack cells. */
export function textToSettings(text: string): FoundSetting[] {
  const found: FoundSetting[] = [];
  const phantom = phantomIn(text);
  if (phantom) found.push({ name: 'phantom', ...phantom });
  const gain = /(?:\bG|\bgain\s*[:=]?\s*)(\d+(?:[.,]\d+)?)(?:\s?dB)?\b/i.exec(text);
  if (gain) found.push({ name: 'gain', value: gain[1] ?? '', said: gain[0] });
  const microphone = /\b(ribbon|dyn(?:amic)?|cond(?:enser)?)\b/i.exec(text);
  if (microphone && (saysRibbon(text) || !/^ribbon$/i.test(microphone[0])))
    found.push({ name: 'microphone', value: toMicrophone(microphone[1] ?? ''), said: microphone[0] });
  return found;
}

export function toMicrophone(text: string): string {
  if (/^dyn/i.test(text)) return 'dynamic';
  if (/^cond/i.test(text)) return 'condenser';
  return text.trim().toLowerCase();
}

/** A cell of a phantom column; a text that does not tell stays as it is. */
export function toPhantom(text: string): string {
  return textToPhantom(text) ?? text.trim();
}

export function toOnOff(text: string): string {
  if (/^(on|yes|y|1|true)$/i.test(text.trim())) return 'on';
  if (/^(off|no|n|0|false)$/i.test(text.trim())) return 'off';
  return text.trim();
}

export function textToDirection(text: string): Direction | undefined {
  const word = text.trim().toLowerCase();
  if (/^(in|input|i|sink|receive|rx|to)$/.test(word)) return 'in';
  if (/^(out|output|o|source|send|tx|from)$/.test(word)) return 'out';
  if (/^(both|bidir(ectional)?|in\/out|i\/o|io|bi|duplex)$/.test(word)) return 'both';
  if (/^(none|-|through|pass(ive)?)$/.test(word)) return 'none';
  return undefined;
}

export function textToLeg(text: string): Leg | undefined {
  const word = text.trim().toLowerCase();
  if (/^(l|left|lt)$/.test(word)) return 'left';
  if (/^(r|right|rt)$/.test(word)) return 'right';
  if (/^(l\s?[/+&]\s?r|lr|st|stereo|both)$/.test(word)) return 'both';
  if (/^(m|mono)$/.test(word)) return 'mono';
  return undefined;
}

/** `OUT L/R`, `IN L+R`, `LR`, `ST`: one jack cell for both legs of a stereo circuit. */
export function saysBothLegs(text: string): boolean {
  return /(^|[\s\d])(l\s?[/+&]\s?r|lr|st|stereo)$/i.test(text.trim());
}

export function saysYes(text: string): boolean {
  return /^(y|yes|x|1|true|spare|✓|✔|mult)$/i.test(text.trim());
}

/** A location that names a rack by its own look (`R2`, `RK03`, `Rack 4`), where no list says so. */
export function looksLikeRack(text: string): boolean {
  return /^((r|rk|rack|cab|cabinet|bay)[\s-]?\d{1,3}[a-z]?|(rack|cabinet|bay)[\s-][a-z]\d{0,2})$/i.test(text.trim());
}

/** `U26`, `26`, `RU 26`: the number, or null. */
export function textToU(text: string): number | null {
  const match = /^(?:r?u\s?)?(\d{1,2})(?:\s?r?u)?$/i.exec(text.trim());
  const u = match ? Number(match[1]) : Number.NaN;
  return u >= 1 && u <= 99 ? u : null;
}

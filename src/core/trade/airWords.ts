// Words in the texts of a plan that say that something is on the air or must be left alone, and the words beside them that
// say otherwise. Never asked while a sheet is read: what a sheet's text means here may grow without changing a document.
//
// Limits: English words, and those a station adds. PGM and its numbers name a bus of a console as often as the air, so
// they are left to the station. Too much is marked rather than too little.
import { wordKey } from './signals.ts';

/**
 * What a hit means nothing beside: `on-air light` is a contact, `programming lead` belongs to a laptop. All of these are
 * common practice, no source.
 */
interface AirWord {
  word: RegExp;
  before?: RegExp;
  after?: RegExp;
}

/** "not on air", "was STL": what follows is denied. */
const DENIED = /\b(?:not|never|no longer|isn['’]t|was|formerly|ex|instead of|spare)[\s-]*(?:the\s+)?$/i;

const LAMPS =
  /^[\s-]*(?:tally|tallies|lights?|lighting|lamps?|signs?|switch(?:es)?|indicators?|beacons?|button|clock)\b/i;
/** What stands in the room of a thing is not the thing. */
const IN_THE_ROOM =
  /^[\s-]*(?:(?:room|hall|site|hut|building|office)[\s-]+)?(?:tele)?(?:phones?|lights?|lighting|lamps?|doors?|cctv|cameras?|heat(?:er|ing)|cooling|wi-?fi|clocks?)\b/i;
const LOW_POWER =
  /\b(?:mic|mics|microphone|wireless|cordless|(?:body|belt)[\s-]?pack|hand-?held|ir|infra-?red|in-?ear|iem|talkback|tour|hearing|loop|level|pressure|temp(?:erature)?|flow|humidity|hdmi|kvm|video|usb)[\s-]+$/i;
const SOFTWARE =
  /^[\s-]*(?:ports?|cables?|leads?|software|files?|changes?|memory|updates?|downloads?|versions?|keys?|buttons?|cards?|headers?|sockets?|connectors?)\b/i;
const ABOUT_PROGRAMMES =
  /^[\s-]*(?:offices?|(?:tele)?phones?|producers?|directors?|managers?|staff|dep(?:t|artment)s?|guides?|schedules?|log(?:s|ging|gers?)?|mon(?:itor(?:s|ing)?)?|meters?|headphones?|cue|clocks?|lights?|lamps?|returns?|intercom|talkback)\b/i;
/** "program the frame": the verb, which only the short spelling can be. */
const VERB = /^[\s-]+(?:the|it|its|a|an|with|using|by|via)\b/i;

const WORDS: readonly AirWord[] = [
  { word: /\bon[ -]?air\b/gi, after: LAMPS },
  { word: /\bair[ -](?:chain|feed|path|send)s?\b/gi },
  { word: /\bprogrammes?\b/gi, after: either(SOFTWARE, ABOUT_PROGRAMMES) },
  { word: /\bprograms?\b/gi, before: /\bre-?$/i, after: either(SOFTWARE, ABOUT_PROGRAMMES, VERB) },
  { word: /\btransmitters?(?![a-z])/gi, before: LOW_POWER, after: IN_THE_ROOM },
  { word: /\bxmtrs?(?![a-z])/gi, after: IN_THE_ROOM },
  { word: /\b(?:fm|am|dab|main|standby)[ -]tx\b|\btx[ -](?:prog\w*|feed|audio|mpx|site|hall)\b/gi, after: IN_THE_ROOM },
  { word: /\bstl(?![a-z])/gi, before: /\.$/ },
  { word: /\bstudio[ -]*(?:to[ -]*)?(?:transmitter|tx)[ -]*link\b/gi },
  {
    word: /\bemergency\b/gi,
    after:
      /^[\s-]*(?:exits?|lights?|lighting|lamps?|luminaires?|doors?|(?:tele)?phones?|calls?|numbers?|contacts?|showers?|kit|torch|escape|egress|stairs?|pull[\s-]?cord|assistance|bell|refuge)\b/i,
  },
  {
    word: /\b(?:public|civil|national)[ -](?:alert|warning)(?:s|ing)?\b|\balert(?:ing)? (?:encoder|decoder|receiver)\b/gi,
  },
  { word: /\beas\b/gi },
  {
    word: /\b(?:do not|don['’]?t|never|must not be) (?:be )?(?:moved?|touch(?:ed)?|unplug(?:ged)?|un-?patch(?:ed)?|re-?patch(?:ed)?|disconnect(?:ed)?|switch(?:ed)? off|turn(?:ed)? off|power(?:ed)? (?:off|down))\b/gi,
    after: /^\s+(?:the\s+|this\s+)?(?:labels?|tags?|furniture|desk|chairs?)\b/i,
  },
  { word: /\bhands off\b/gi },
  {
    word: /\bhot\b/gi,
    before: /(?:\bpin ?\d|\btip|\bruns|\bgets|\btoo|[=:/]|\b\d)[\s-]*$/i,
    after:
      /^(?:\s*[=:/+]|[\s-]*(?:on pin|pin|leg|wire|side|conductor|and cold|cold|spare|swap\w*|stand-?by|plug\w*|shoe|glue|aisle|desk\w*|water|melt)\b)/i,
  },
];

/** Does the text say, in the trade's usual words, that this carries the air or must be left alone? */
export function saysAir(text: string): boolean {
  return WORDS.some(({ word, before, after }) =>
    [...text.matchAll(word)].some((hit) => {
      const [ahead, rest] = [text.slice(0, hit.index), text.slice(hit.index + hit[0].length)];
      return !DENIED.test(ahead) && !before?.test(ahead) && !after?.test(rest);
    }),
  );
}

/** @param own The station's words. They count as whole words; case and signs between do not. */
export function saysOwnAir(text: string, own: readonly string[]): boolean {
  if (own.length === 0 || text === '') return false;
  const key = `-${wordKey(text)}-`;
  return own.some((word) => wordKey(word) !== '' && key.includes(`-${wordKey(word)}-`));
}

function either(...ways: readonly RegExp[]): RegExp {
  return new RegExp(ways.map(({ source }) => source).join('|'), 'i');
}

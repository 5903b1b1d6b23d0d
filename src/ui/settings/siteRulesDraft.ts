// What is typed on the screen of the station's rules, and what becomes of it: entries that can be added, examples of
// the channel rule, subnets that overlap. Pure; nothing is kept here.

import { signalWords } from '../../core/report/words/words.ts';
import {
  MAX_AIR_WORD,
  MAX_AIR_WORDS,
  MAX_COLOUR,
  MAX_PAIRS,
  MAX_RULE_WORDS,
  MAX_RULES,
  MAX_SIGNAL_WORD,
  MEETING,
  pairsFault,
  type SiteRules,
} from '../../core/schedule/desk/siteRules.ts';
import { subnetOf, subnetsOverlap, textToAddress } from '../../core/trade/addresses.ts';
import { saysAir } from '../../core/trade/airWords.ts';
import {
  AUDIO_CHANNELS,
  type AudioChannel,
  type AudioPair,
  type AudioPins,
  audioPinsFault,
} from '../../core/trade/audioPins.ts';
import type { Signal } from '../../core/trade/kinds.ts';
import { nameToKey } from '../../core/trade/names.ts';
import type { PairColours } from '../../core/trade/partsPairs.ts';
import { ALWAYS_TOLD, signalWordsFault, wordKey } from '../../core/trade/signals.ts';
import { list } from '../words.ts';

/** Texts in place of a value; null while the value itself stands there. */
export const NOTHING_BEGUN = {
  factor: null as string | null,
  pairs: null as string | null,
  left: null as string | null,
  right: null as string | null,
  aes3: null as string | null,
};

/** Texts that are not rules yet. */
export const NOTHING_TYPED = {
  first: '',
  last: '',
  why: '',
  subnetName: '',
  subnet: '',
  add: '',
  a: 'line-audio' as Signal,
  b: 'aes3' as Signal,
  meetWhy: '',
  word: '',
  stands: 'line-audio' as Signal,
  air: '',
  ...NOTHING_BEGUN,
};
export type Typed = typeof NOTHING_TYPED;

type Added = { type: 'rules'; rules: SiteRules } | { type: 'bad'; why: string };
const bad = (why: string): Added => ({ type: 'bad', why });
const wholeNumber = (text: string) => (/^\d{1,7}$/.test(text.trim()) ? Number(text) : null);
const full = (list: readonly unknown[]) => list.length >= MAX_RULES;
const FULL = `${MAX_RULES} entries are the most. Remove one first.`;

/** The factor of the channel rule, or why it is none. */
export function textToFactor(text: string): number | string {
  const factor = wholeNumber(text);
  return factor !== null && factor >= 1 && factor <= 10_000 ? factor : 'Write a whole number from 1 to 10000.';
}

/** `192.0.2.21, input 1: channel 2101.` */
export function channelExample({ channel, subnets }: SiteRules): string {
  if (!channel) return 'Channel numbers are not checked against a rule.';
  const added = subnets.find(({ add }) => add !== undefined && add > 0);
  const usual = `192.0.2.21, input 1: channel ${21 * channel.factor + 1}.`;
  return added ? `${usual} In ${added.name}: ${21 * channel.factor + 1 + (added.add ?? 0)}.` : usual;
}

export function addException(rules: SiteRules, typed: Typed): Added {
  const first = wholeNumber(typed.first);
  const last = typed.last.trim() === '' ? first : wholeNumber(typed.last);
  if (first === null || last === null) return bad('Write the first and the last channel number, digits only.');
  if (last < first) return bad('The last number is lower than the first.');
  if (full(rules.channelExceptions)) return bad(FULL);
  const why = typed.why.trim().slice(0, MAX_RULE_WORDS);
  return { type: 'rules', rules: { ...rules, channelExceptions: [...rules.channelExceptions, { first, last, why }] } };
}

export function addSubnet(rules: SiteRules, typed: Typed): Added {
  const subnet = typed.subnet.trim();
  const read = textToAddress(subnet);
  if (read.type === 'bad') return bad(`${subnet || 'Nothing'} is not a subnet: ${read.why}. Write it as 192.0.2.0/24.`);
  if (read.prefix === null) return bad('Write its size after a slash, as in 192.0.2.0/24.');
  const add = typed.add.trim() === '' ? undefined : wholeNumber(typed.add);
  if (add === null) return bad('Write a whole number to add to its channel numbers.');
  if (full(rules.subnets)) return bad(FULL);
  const name = typed.subnetName.trim().slice(0, MAX_RULE_WORDS) || subnet;
  const one = { name, subnet, ...(add === undefined ? {} : { add }) };
  return { type: 'rules', rules: { ...rules, subnets: [...rules.subnets, one] } };
}

export function addMeeting(rules: SiteRules, { a, b, meetWhy }: Typed): Added {
  if (a === b) return bad('Choose two different signals.');
  if (ALWAYS_TOLD.has(a) || ALWAYS_TOLD.has(b)) return bad('Signals that carry power are always reported.');
  if (rules.mayMeet.some((one) => [one.a, one.b].includes(a) && [one.a, one.b].includes(b)))
    return bad('These two are in the list already.');
  if (full(rules.mayMeet)) return bad(FULL);
  const why = meetWhy.trim().slice(0, MAX_RULE_WORDS);
  return { type: 'rules', rules: { ...rules, mayMeet: [...rules.mayMeet, { a, b, why }] } };
}

/** Pairs of subnets that share addresses, in words. */
export function overlapsToWords({ subnets }: SiteRules): string[] {
  const read = subnets.flatMap(({ name, subnet }) => {
    const address = textToAddress(subnet);
    return address.type === 'address' && address.prefix !== null
      ? [{ name, subnet: subnetOf(address.value, address.prefix) }]
      : [];
  });
  return read.flatMap((one, i) =>
    read
      .slice(i + 1)
      .filter((other) => subnetsOverlap(one.subnet, other.subnet))
      .map((other) => `${one.name} and ${other.name} overlap: an address can belong to both.`),
  );
}

/** Names of subnets whose units would get the same channel numbers. */
export function sharedNumbers({ channel, subnets }: SiteRules): string | null {
  const plain = subnets.filter(({ add }) => !add);
  if (!channel || plain.length < 2) return null;
  return `In ${list(plain.map(({ name }) => name))} the rule gives the same channel numbers to units with the same last number. Add something to all but one.`;
}

export const MEETING_OPTIONS = MEETING.map((signal) => ({ value: signal, text: signalWords(signal) }));

export function addSignalWords(rules: SiteRules, { word, stands }: Typed): Added {
  const one = { words: word.trim().slice(0, MAX_SIGNAL_WORD), signal: stands };
  if (one.words === '') return bad('Write the word as it is on your sheets.');
  const fault = signalWordsFault(one);
  if (fault) return bad(`Not possible: ${fault}.`);
  if (rules.signalWords.some(({ words }) => nameToKey(words) === nameToKey(one.words)))
    return bad(`${one.words} is in the list already. Remove it first.`);
  if (full(rules.signalWords)) return bad(FULL);
  return { type: 'rules', rules: { ...rules, signalWords: [...rules.signalWords, one] } };
}

export function addAirWord(rules: SiteRules, { air }: Typed): Added {
  const word = air.trim().slice(0, MAX_AIR_WORD);
  const words = rules.airWords ?? [];
  if (wordKey(word) === '') return bad('Type the word as it is in your plan.');
  if (saysAir(word)) return bad(`${word} already counts as on-air.`);
  if (words.some((one) => wordKey(one) === wordKey(word))) return bad(`${word} is in the list.`);
  if (words.length >= MAX_AIR_WORDS) return bad(`No more than ${MAX_AIR_WORDS} words are kept. Remove one first.`);
  return { type: 'rules', rules: { ...rules, airWords: [...words, word] } };
}

export const pairsToText = (pairs: readonly PairColours[]) => pairs.map(({ tip, ring }) => `${tip}/${ring}`).join(', ');

/** `white/blue, white/orange`, or why it is no order of pairs. */
export function textToPairs(text: string): PairColours[] | string {
  const parts = text.split(/[,;\n]/).map((part) => part.trim());
  const given = parts.filter((part) => part !== '');
  if (given.length === 0) return 'Write at least one pair, as white/blue.';
  if (given.length > MAX_PAIRS) return `More than ${MAX_PAIRS} pairs are not kept.`;
  const pairs: PairColours[] = [];
  for (const part of given) {
    const [tip = '', ring = '', ...more] = part.split('/').map((colour) => colour.trim());
    if (tip === '' || ring === '' || more.length > 0) return `“${part}” is no pair. Write tip and ring, as white/blue.`;
    if (Math.max(tip.length, ring.length) > MAX_COLOUR) return `“${part}” is too long for two colours.`;
    pairs.push({ tip, ring });
  }
  const fault = pairsFault(pairs);
  return fault ? `${fault}: two equal pairs cannot be told apart.` : pairs;
}

export const CHANNEL_WORDS: Record<AudioChannel, string> = { left: 'Left', right: 'Right', aes3: 'AES3' };

/** `1/2`, hot first, or why these are no two contacts. */
function textToAudioPair(text: string): AudioPair | string {
  const match = /^\s*([1-8])\s*[/,+ -]\s*([1-8])\s*$/.exec(text);
  if (!match) return 'Write two contacts from 1 to 8, hot first, as 1/2.';
  const pair = { hot: Number(match[1]), cold: Number(match[2]) };
  return pair.hot === pair.cold ? 'Hot and cold are the same contact.' : pair;
}

/** The table with what is typed in it, or where it cannot be so and why. Left and right may be typed in any order. */
export function typedPins(
  { audioPins }: SiteRules,
  typed: Pick<Typed, AudioChannel>,
): { type: 'pins'; pins: AudioPins } | { type: 'bad'; at: AudioChannel; why: string } {
  const pins = { ...audioPins };
  for (const channel of AUDIO_CHANNELS) {
    const text = typed[channel];
    const read = text === null ? pins[channel] : textToAudioPair(text);
    if (typeof read === 'string') return { type: 'bad', at: channel, why: read };
    pins[channel] = read;
  }
  const fault = audioPinsFault(pins);
  const at = typed.right === null ? 'left' : 'right';
  return fault ? { type: 'bad', at, why: `Not possible: ${fault}.` } : { type: 'pins', pins };
}

/** Is something typed in place of a value? */
export function isTyped(typed: Typed): boolean {
  return Object.keys(NOTHING_BEGUN).some((key) => typed[key as keyof typeof NOTHING_BEGUN] !== null);
}

/** Does something typed in place of a value make none? */
export function unread(rules: SiteRules, typed: Typed): boolean {
  if (typed.pairs !== null && typeof textToPairs(typed.pairs) === 'string') return true;
  return typedPins(rules, typed).type === 'bad';
}

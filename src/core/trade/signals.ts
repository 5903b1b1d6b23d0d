// Signals of the trade: what the words of a Signal column mean, and which two must not meet on one connector.
// Facts only; what a meeting means for a walk is judged in the audit.

import type { Signal } from './kinds.ts';
import { nameToKey } from './names.ts';

/**
 * Words in the order in which they decide; the first that is found wins, so `Enet PoE` is PoE and `on-air tally` is a
 * closure. The words are common practice of radio stations' run lists, no single published source.
 */
const WORDS: readonly [Signal, RegExp][] = [
  ['poe', /\bpoe\+{0,2}|802\.3(af|at|bt)\b/i],
  ['dc-powered-audio', /\b(powered (audio|tail)|audio \+ ?(dc|power)|passive power)\b/i],
  ['mpx', /\b(mpx|composite|multiplex|rds)\b/i],
  ['intercom', /\b(intercom|talk ?back|party ?line|4-?wire|ifb)\b/i],
  [
    'telephone',
    /\b(pots|phone|telephone|telco|pstn|analog(ue)? (exchange|subscriber|co|phone) line|ringing|fxs|fxo)\b/i,
  ],
  ['reference', /\b(word ?clock|wc|ref(erence)?|black ?burst|10 ?mhz|1 ?pps|clock|sync|ltc|time ?code)\b/i],
  [
    'closure',
    /\b(gpi|gpo|gpio|tally|tallies|closure|start ?\/ ?stop|on ?\/ ?off|relay|contact|mute|logic|on-?air (light|lamp)|remote control)\b/i,
  ],
  ['fibre-single-mode', /\b(single-?mode|sm fib(re|er)|os1|os2|9\/125)\b/i],
  ['fibre-multimode', /\b(multi-?mode|mm fib(re|er)|om[1-5]|50\/125|62\.5\/125)\b/i],
  ['loudspeaker', /\b(speaker|loudspeaker|spkr|ls|70 ?v line|100 ?v line)\b/i],
  ['microphone', /\b(mic|mics|microphone|mike)\b/i],
  ['aes3', /\b(aes|aes3|aes\/ebu|aes-?3|digital audio|s\/?pdif)\b/i],
  ['serial', /\b(rs-?232|rs-?422|rs-?485|serial|com port|midi|dmx)\b/i],
  ['rf', /\b(rf|antenna|aerial|coax to|if|l-?band)\b/i],
  ['mains', /\b(mains|ac power|pwr|power|230 ?v|120 ?v|240 ?v|iec|ups)\b/i],
  ['dc', /\b(dc|psu|\+?(5|12|24|48) ?v dc)\b/i],
  [
    'network',
    /\b(enet|ethernet|network|net|lan|uplink|trunk|aoip|aes67|data|ip|cat ?[5-8][ae]?|1000base-?t|100base-?tx)\b/i,
  ],
  [
    'line-audio',
    /\b(ana|analog|analogue|line|audio|stereo|mono|pgm|programme|program|aux|cue|monitor|mon|headphones?|l\/r)\b/i,
  ],
];

/** Signals that carry power, ringing or radio frequency, or drive loudspeakers: no table of a station hides them. */
export const ALWAYS_TOLD: ReadonlySet<Signal> = new Set([
  'mains',
  'dc',
  'poe',
  'dc-powered-audio',
  'telephone',
  'rf',
  'loudspeaker',
]);

/** Words of a station's own sheets and the signal that they stand for there. */
export interface SignalWords {
  words: string;
  signal: Signal;
}

/**
 * The signal a text names, or null; `POTS line` is telephone, `spare` and `unknown` are none.
 * @param own Words of the station, which come before the usual ones; the longest that stands in the text counts. Where
 *   the usual words tell of power they stay: `NET PoE` is PoE whatever `NET` is here.
 */
export function textToSignal(text: string, own: readonly SignalWords[] = []): Signal | null {
  const usual = WORDS.find(([, words]) => words.test(text))?.[0] ?? null;
  if (own.length === 0 || (usual && ALWAYS_TOLD.has(usual))) return usual;
  const key = `-${wordKey(text)}-`;
  let found: { length: number; signal: Signal } | null = null;
  for (const { words, signal } of own) {
    const word = wordKey(words);
    if (word !== '' && key.includes(`-${word}-`) && word.length > (found?.length ?? 0))
      found = { length: word.length, signal };
  }
  return found?.signal ?? usual;
}

/** Signs around a word do not count. */
export function wordKey(text: string): string {
  return nameToKey(text).replace(/^-+|-+$/g, '');
}

/** Why a station cannot give these words this meaning; null when it can. */
export function signalWordsFault({ words, signal }: SignalWords): string | null {
  if (wordKey(words) === '') return 'there is no word';
  const usual = textToSignal(words);
  return usual && ALWAYS_TOLD.has(usual) && usual !== signal
    ? `${words} stands for ${usual}, and what can carry power, ringing or radio frequency keeps its meaning`
    : null;
}

interface Clash {
  severity: 'people' | 'equipment' | 'service';
  why: string;
}

/** Signals that reach a plain eight-pin modular jack in a radio station, where nothing stops the wrong plug. */
const MODULAR: ReadonlySet<Signal> = new Set([
  'network',
  'poe',
  'line-audio',
  'dc-powered-audio',
  'aes3',
  'closure',
  'serial',
  'intercom',
]);
const POWERED: ReadonlySet<Signal> = new Set(['poe', 'dc-powered-audio', 'dc']);
const AUDIO: ReadonlySet<Signal> = new Set(['line-audio', 'aes3', 'microphone', 'mpx', 'intercom']);
const OPTICAL: ReadonlySet<Signal> = new Set(['fibre-single-mode', 'fibre-multimode']);

/**
 * What happens when a cable of one signal is in a jack of another. Null when they may meet: the same signal, or
 * Ethernet on a port that offers power, which is asked for by a signature first (IEEE 802.3 clause 33).
 */
export function signalClash(a: Signal, b: Signal, connector?: string): Clash | null {
  if (a === b) return null;
  const has = (signal: Signal) => a === signal || b === signal;
  const both = (set: ReadonlySet<Signal>) => set.has(a) && set.has(b);
  if (has('network') && has('poe')) return null;
  if (has('mains')) return { severity: 'people', why: 'Mains can reach parts that people touch.' };
  // Idle about 48 V DC, ringing in the order of 90 V AC on top (common practice, from memory).
  if (has('telephone'))
    return { severity: 'equipment', why: 'A telephone pair carries direct voltage and ringing voltage.' };
  if (has('rf')) return { severity: 'equipment', why: 'Radio-frequency power meets an input that is not made for it.' };
  if (both(OPTICAL)) return { severity: 'service', why: 'Single-mode and multimode fibre do not couple.' };
  if (OPTICAL.has(a) || OPTICAL.has(b))
    return { severity: 'equipment', why: 'A fibre and a copper connection do not fit; something is between them.' };
  if (POWERED.has(a) || POWERED.has(b))
    return { severity: 'equipment', why: 'Direct voltage reaches a jack that does not expect it.' };
  if (has('loudspeaker'))
    return { severity: 'equipment', why: 'An amplifier output meets a jack made for small signals.' };
  if (has('line-audio') && has('aes3') && connector !== undefined && !isModular(connector)) {
    return { severity: 'service', why: 'Digital and analogue audio do not understand each other.' };
  }
  if (has('network') && (AUDIO.has(a) || AUDIO.has(b) || has('closure') || has('serial'))) {
    return { severity: 'equipment', why: 'A network port meets a jack of another kind on the same connector.' };
  }
  // On RJ45 the spare pairs of an audio jack may carry supply voltage for powered tails (common practice, no source).
  if (both(MODULAR) && (has('line-audio') || has('aes3'))) {
    return { severity: 'equipment', why: 'The same connector is wired another way; spare pairs may carry a supply.' };
  }
  return { severity: 'service', why: 'The signals differ; the service does not work.' };
}

/** Eight-pin modular jacks in the words of schedules (IEC 60603-7; RJ45, 8P8C). */
export function isModular(connector: string): boolean {
  return /\b(rj-?45|rj|8p8c|modular)\b/i.test(connector);
}

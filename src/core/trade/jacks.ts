// What a jack's printed label tells about it: direction, signal, connector. Every answer is a guess and is to be shown
// as one; a jack list always overrules it. Labels are common practice of makers, no source.
import type { Direction, Signal } from './kinds.ts';

export interface JackGuess {
  direction?: Direction;
  signal?: Signal;
  connector?: string;
}

/** @param about Words about the unit (its description), which tell an analogue frame from a digital one. */
export function labelToJack(label: string, about = ''): JackGuess {
  const text = label.trim().toUpperCase();
  const frame = aboutToSignal(about);
  if (/^(NET|LAN|ETH|ETHERNET|LINK|UPLINK|AOIP|MGMT)\s*[-.]?\d*[A-D]?$/.test(text)) {
    return { direction: 'both', signal: 'network', connector: 'RJ45' };
  }
  if (/^(GPIO|GPI\/?O|TALLY|LOGIC)\s*[-.]?\d*$/.test(text) || /^L\d+$/.test(text))
    return { direction: 'both', signal: 'closure' };
  if (/^GPI\s*\d*$/.test(text)) return { direction: 'in', signal: 'closure' };
  if (/^GPO\s*\d*$/.test(text)) return { direction: 'out', signal: 'closure' };
  if (/^(WC|REF|CLOCK|WORD ?CLOCK)\s*IN\s*\d*$/.test(text)) return { direction: 'in', signal: 'reference' };
  if (/^(WC|REF|CLOCK|WORD ?CLOCK)\s*OUT\s*\d*$/.test(text)) return { direction: 'out', signal: 'reference' };
  if (/^(AC|MAINS|PWR|POWER|PSU)\s*(IN)?\s*[-.]?[A-D\d]*$/.test(text)) return { direction: 'in', signal: 'mains' };
  if (/^(RF|ANT|ANTENNA)\b/.test(text)) {
    return {
      signal: 'rf',
      ...(/\bOUT\b/.test(text) ? { direction: 'out' } : /\bIN\b/.test(text) ? { direction: 'in' } : {}),
    };
  }
  if (/^(TEL|TELCO|PHONE|POTS)\s*\d*$/.test(text)) return { direction: 'both', signal: 'telephone' };
  if (/^(MIC|M)\s*[-.]?\d+$/.test(text)) return { direction: 'in', signal: 'microphone' };
  if (/^LINE\s*(IN)?\s*[-.]?\d*$/.test(text)) return { direction: 'in' };
  const aes = /\bAES\d?\b/.test(text);
  const signal = aes ? 'aes3' : /\bMPX\b/.test(text) ? 'mpx' : frame;
  const known = signal ? { signal } : {};
  if (/\bOUT(PUT)?S?\b|^(OUT|SEND)\d+|^O\d+/.test(text)) return { direction: 'out', ...known };
  if (/\bIN(PUT)?S?\b|^(IN|RTN|RETURN)\d+|^I\d+/.test(text)) return { direction: 'in', ...known };
  if (/^P(ORT)?\s*\d+$/.test(text) && /\bswitch\b/i.test(about)) {
    return { direction: 'both', signal: /\bpoe\b/i.test(about) ? 'poe' : 'network', connector: 'RJ45' };
  }
  return {};
}

/** The signal that plain I and O jacks of a unit carry, from its description. */
function aboutToSignal(about: string): Signal | null {
  if (/\b(aes|aes3|digital)\b/i.test(about)) return 'aes3';
  if (/\b(analog|analogue|line)\b/i.test(about) && !/\b(phone|telephone|hybrid)\b/i.test(about)) return 'line-audio';
  return null;
}

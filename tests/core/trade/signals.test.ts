// Words of signals and which two may not meet. Words: common practice, no source.
import { describe, expect, it } from 'vitest';
import { SIGNALS } from '../../../src/core/trade/kinds.ts';
import { signalClash, signalWordsFault, textToSignal } from '../../../src/core/trade/signals.ts';

describe('words of a signal column', () => {
  it.each([
    ['Enet', 'network'],
    ['ENET', 'network'],
    ['network', 'network'],
    ['uplink', 'network'],
    ['Enet PoE', 'poe'],
    ['ANA', 'line-audio'],
    ['Ana st', 'line-audio'],
    ['line unbal st', 'line-audio'],
    ['AES PGM1', 'aes3'],
    ['mic cond', 'microphone'],
    ['GPIO', 'closure'],
    ['on-air tally', 'closure'],
    ['start/stop', 'closure'],
    ['hyb on/off', 'closure'],
    ['POTS', 'telephone'],
    ['phone', 'telephone'],
    ['WC', 'reference'],
    ['ref', 'reference'],
    ['PWR', 'mains'],
    ['MPX', 'mpx'],
    ['RS-232', 'serial'],
  ] as const)('%s is %s', (text, signal) => {
    expect(textToSignal(text)).toBe(signal);
  });

  it.each(['spare', 'unknown', '', '?'])('%s names no signal', (text) => {
    expect(textToSignal(text)).toBeNull();
  });
});

describe('signals that meet on one connector', () => {
  it('is no clash for the same signal, nor for a network cable on a port that offers power', () => {
    for (const signal of SIGNALS) expect(signalClash(signal, signal)).toBeNull();
    expect(signalClash('network', 'poe')).toBeNull();
  });

  it.each([
    ['network', 'line-audio'],
    ['poe', 'line-audio'],
    ['network', 'aes3'],
    ['dc-powered-audio', 'network'],
    ['dc-powered-audio', 'line-audio'],
    ['aes3', 'line-audio'],
    ['telephone', 'network'],
    ['rf', 'aes3'],
  ] as const)('%s on %s is a danger to equipment', (a, b) => {
    expect(signalClash(a, b)?.severity).toBe('equipment');
  });

  it('is a danger to people where mains is one of them', () => {
    for (const signal of SIGNALS) {
      if (signal !== 'mains') expect(signalClash('mains', signal)?.severity).toBe('people');
    }
  });

  it('only fails to work where digital meets analogue audio on another connector than RJ45', () => {
    expect(signalClash('aes3', 'line-audio', 'XLR')?.severity).toBe('service');
    expect(signalClash('aes3', 'line-audio', 'RJ45')?.severity).toBe('equipment');
    expect(signalClash('microphone', 'line-audio')?.severity).toBe('service');
  });

  it('says the same whichever of the two is named first', () => {
    for (const a of SIGNALS) for (const b of SIGNALS) expect(signalClash(a, b)).toEqual(signalClash(b, a));
  });
});

describe('a station’s own words', () => {
  const own = [
    { words: 'ENG', signal: 'intercom' as const },
    { words: 'ENG feed', signal: 'line-audio' as const },
    { words: 'line', signal: 'closure' as const },
    { words: 'net', signal: 'aes3' as const },
  ];
  // Invented words; that a word of power stays is this project's own rule.
  it.each([
    ['ENG 4', 'intercom'],
    ['eng-feed 4', 'line-audio'],
    ['Line', 'closure'],
    ['NET', 'aes3'],
    ['NET PoE', 'poe'],
    ['line, 230 V', 'mains'],
    ['POTS line', 'telephone'],
    ['ENGINE', null],
    ['mic', 'microphone'],
  ])('%s is %s', (text, signal) => {
    expect(textToSignal(text, own)).toBe(signal);
  });
  it('are none where only signs stand, and none that hide power', () => {
    expect(textToSignal('a - b', [{ words: ' - ', signal: 'mpx' }])).toBeNull();
    expect(signalWordsFault({ words: 'UPS', signal: 'network' })).toContain('keeps its meaning');
    expect(signalWordsFault({ words: 'UPS', signal: 'mains' })).toBeNull();
    expect(signalWordsFault({ words: 'ENG', signal: 'mains' })).toBeNull();
  });
});

// Rack sizes, jack labels, hazards and cautions.
import { describe, expect, it } from 'vitest';
import { cautionFor, HAZARDS, hazardById } from '../../../src/core/trade/hazards.ts';
import { labelToJack } from '../../../src/core/trade/jacks.ts';
import { SIGNALS } from '../../../src/core/trade/kinds.ts';
import { RACK_UNIT_MM } from '../../../src/core/trade/rack.ts';

describe('racks', () => {
  it('takes one unit as 1.75 inch, 44.45 mm (IEC 60297-3-100)', () => {
    expect(RACK_UNIT_MM).toBeCloseTo(1.75 * 25.4, 10);
  });
});

describe('jack labels (common practice of makers, no source)', () => {
  it.each([
    ['OUT', '', { direction: 'out' }],
    ['O1', 'analogue frame', { direction: 'out', signal: 'line-audio' }],
    ['IN L', '', { direction: 'in' }],
    ['I1', '', { direction: 'in' }],
    ['AES IN', '', { direction: 'in', signal: 'aes3' }],
    ['M1', '', { direction: 'in', signal: 'microphone' }],
    ['LINE', '', { direction: 'in' }],
    ['NET', '', { direction: 'both', signal: 'network', connector: 'RJ45' }],
    ['GPIO', '', { direction: 'both', signal: 'closure' }],
    ['L1', '', { direction: 'both', signal: 'closure' }],
    ['P01', 'network switch, PoE', { direction: 'both', signal: 'poe', connector: 'RJ45' }],
    ['P01', 'patch panel', {}],
    ['J1', '', {}],
    ['XLR', '', {}],
  ])('%s on "%s"', (label, about, expected) => {
    expect(labelToJack(label, about)).toEqual(expected);
  });
});

describe('hazards and cautions', () => {
  it('have ids of their own and words of their own', () => {
    expect(new Set(HAZARDS.map((hazard) => hazard.id)).size).toBe(HAZARDS.length);
    expect(new Set(HAZARDS.map((hazard) => hazard.caution)).size).toBe(HAZARDS.length);
    expect(hazardById('phantom-on-ribbon')?.severity).toBe('equipment');
    expect(hazardById('no such hazard')).toBeUndefined();
  });

  it('never say that anything is safe', () => {
    const words = [
      ...HAZARDS.flatMap(({ title, caution }) => [title, caution]),
      ...SIGNALS.map((s) => cautionFor(s) ?? ''),
    ];
    expect(words.join(' ')).not.toMatch(/\bsafe(ly)?\b|harmless|no danger/i);
  });

  it('defer to local codes where people are at risk from building services or transmitters', () => {
    for (const id of ['mains', 'earth-missing', 'near-mains', 'rf', 'height']) {
      expect(hazardById(id)?.caution).toMatch(/local codes/i);
    }
  });

  it('warn about an RJ45 that nobody knows, and say nothing where the trade has nothing to say', () => {
    expect(cautionFor(undefined, 'RJ45')).toMatch(/plug nothing/);
    expect(cautionFor('mains')).toMatch(/licensed trades/);
    expect(cautionFor('line-audio')).toBeNull();
  });
});

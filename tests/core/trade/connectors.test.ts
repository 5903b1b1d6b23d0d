// Connectors in the words of schedules. That a source has pins and an input sockets is AES14, from memory; the words are
// common practice, no source.
import { describe, expect, it } from 'vitest';
import { directionFault, matingFault, textToConnectors } from '../../../src/core/trade/connectors.ts';
import { lengthLimit, textToMetres } from '../../../src/core/trade/lengths.ts';

describe('connectors in words', () => {
  it.each([
    ['XLR-M', 'xlr-3', 'male'],
    ['XLR3F', 'xlr-3', 'female'],
    ['XM', 'xlr-3', 'male'],
    ['xlr female', 'xlr-3', 'female'],
    ['XLR', 'xlr-3', null],
    ['RJ45', 'rj45', null],
    ['RJ', 'rj45', null],
    ['DB25', 'd-sub-25', null],
    ['D-sub 15', 'd-sub-15', null],
    ['BNC', 'bnc', null],
    ['3.5mm', 'mini-jack', null],
    ['TT', 'tt', null],
    ['LC', 'lc', null],
  ])('%s is %s, %s', (text, family, gender) => {
    expect(textToConnectors(text)).toEqual([{ family, gender }]);
  });
  it('of other words are none', () => {
    for (const text of ['', 'solder', 'rear', 'M3']) expect(textToConnectors(text)).toEqual([]);
  });
  const of = (text: string) => textToConnectors(text)[0]!;
  it('mate only within a family and with the other gender', () => {
    expect(matingFault(of('XLR-M'), of('XLR-F'))).toBeNull();
    expect(matingFault(of('XLR'), of('XLR-F'))).toBeNull();
    expect(matingFault(of('XLR-M'), of('XLR-M'))).toContain('both with pins');
    expect(matingFault(of('RJ45'), of('XLR-F'))).toContain('rj45');
  });
  it('of XLR point along the signal', () => {
    expect(directionFault(of('XLR-F'), 'out')).toBeNull();
    expect(directionFault(of('XLR-M'), 'in')).toBeNull();
    expect(directionFault(of('XLR-M'), 'out')).toContain('on an output');
    expect(directionFault(of('XLR-F'), 'in')).toContain('on an input');
    expect(directionFault(of('BNC'), 'in')).toBeNull();
  });
});

describe('lengths', () => {
  it('end where the standards end: ISO/IEC 11801-1, IEEE 802.3an, AES3-2009, AES-3id', () => {
    expect(lengthLimit('network', 'Cat6 blue')).toMatchObject({ metres: 100, hard: true });
    expect(lengthLimit('network', '10GBASE-T Cat6')).toMatchObject({ metres: 55 });
    expect(lengthLimit('network', '10GBASE-T Cat6A')).toMatchObject({ metres: 100 });
    expect(lengthLimit('aes3', '110R')).toMatchObject({ metres: 100, hard: false });
    expect(lengthLimit('aes3', '75R coax')).toMatchObject({ metres: 1000 });
    expect(lengthLimit('line-audio')).toBeNull();
  });
  it.each([
    ['22', 22, false],
    ['31m', 31, true],
    ['25 ft', 7.62, true],
    ["25'", 7.62, true],
    ['1,5 m', 1.5, true],
  ])('%s is %d m', (text, metres, unitSaid) => {
    const read = textToMetres(text);
    expect(read?.metres).toBeCloseTo(metres, 6);
    expect(read?.unitSaid).toBe(unitSaid);
  });
  it('that are none stay none', () => {
    for (const text of ['?', 'TBD', '', '2-3', '20 paces']) expect(textToMetres(text)).toBeNull();
  });
});

// IPv4 arithmetic against published values: RFC 4632 (CIDR), RFC 3021 (/31), RFC 5737 (documentation blocks), RFC 6890
// (special ranges), the number of 192.0.2.235 as printed in encyclopaedias; the rest by own arithmetic, shown.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addressToText,
  hostFault,
  isWithin,
  subnetOf,
  subnetsOverlap,
  textToAddress,
  textToMac,
} from '../../../src/core/trade/addresses.ts';

const value = (text: string): number => {
  const read = textToAddress(text);
  if (read.type === 'bad') throw new Error(read.why);
  return read.value;
};
const subnet = (text: string) => {
  const read = textToAddress(text);
  if (read.type === 'bad' || read.prefix === null) throw new Error(text);
  return subnetOf(read.value, read.prefix);
};

describe('an address', () => {
  it('is a number of 32 bits', () => {
    expect(value('192.0.2.235')).toBe(3221226219);
    expect(value('192.0.2.235').toString(16).toUpperCase()).toBe('C00002EB');
  });
  it('survives its own text, whatever it is', () => {
    fc.assert(
      fc.property(fc.nat(2 ** 32 - 1), (n) => {
        expect(value(addressToText(n))).toBe(n);
      }),
    );
  });
  it.each(['192.0.2', '192.0.2.256', '192.0.2.007', 'AIO21', '192.0.2.1/33', '', '1.2.3.4.5'])(
    '%j is none, with a reason',
    (text) => {
      expect(textToAddress(text)).toMatchObject({ type: 'bad', why: expect.stringMatching(/\w/) });
    },
  );
});

describe('a subnet', () => {
  it.each([
    ['192.0.2.130/26', '192.0.2.128', '192.0.2.191', 62],
    ['198.51.100.77/28', '198.51.100.64', '198.51.100.79', 14],
    ['203.0.113.200/30', '203.0.113.200', '203.0.113.203', 2],
    ['10.20.30.40/23', '10.20.30.0', '10.20.31.255', 510],
    ['192.0.2.6/31', '192.0.2.6', '192.0.2.7', 2],
    ['192.0.2.6/32', '192.0.2.6', '192.0.2.6', 1],
  ])('%s begins at %s, ends at %s and holds %i units', (text, first, last, hosts) => {
    const { network, last: end, hosts: held } = subnet(text);
    expect([addressToText(network), addressToText(end), held]).toEqual([first, last, hosts]);
  });
  it('overlaps where one holds an address of the other', () => {
    expect(subnetsOverlap(subnet('192.0.2.0/25'), subnet('192.0.2.64/26'))).toBe(true);
    expect(subnetsOverlap(subnet('192.0.2.0/26'), subnet('192.0.2.64/26'))).toBe(false);
    const any = fc.tuple(fc.nat(2 ** 32 - 1), fc.integer({ min: 20, max: 32 }));
    fc.assert(
      fc.property(any, any, ([a, m], [b, n]) => {
        const [one, other] = [subnetOf(a, m), subnetOf(b, n)];
        const holds = isWithin(one.network, other) || isWithin(other.network, one);
        expect(subnetsOverlap(one, other)).toBe(holds);
        expect(isWithin(a, one)).toBe(true);
      }),
    );
  });
});

describe('a unit', () => {
  it.each([
    ['203.0.113.200/30', 'names the subnet'],
    ['192.0.2.191/26', 'broadcast address of its subnet'],
    ['127.0.0.1/8', 'loopback'],
    ['224.0.1.129/24', 'multicast'],
    ['240.0.0.1/24', 'reserved'],
    ['255.255.255.255/32', 'broadcast'],
    ['0.0.0.0/0', 'this network'],
  ])('cannot bear %s', (text, why) => {
    expect(hostFault(value(text), subnet(text))).toContain(why);
  });
  it.each(['192.0.2.130/26', '192.0.2.6/31', '192.0.2.7/31', '198.51.100.65/28'])('can bear %s', (text) => {
    expect(hostFault(value(text), subnet(text))).toBeNull();
  });
});

describe('a hardware address', () => {
  it('is the same however it is written (documentation range of RFC 9542)', () => {
    for (const text of ['00-00-5E-00-53-01', '00:00:5e:00:53:01', '0000.5e00.5301'])
      expect(textToMac(text)).toBe('00005E005301');
    expect(textToMac('00-00-5E-00-53')).toBeNull();
    expect(textToMac('0G-00-5E-00-53-01')).toBeNull();
  });
});

// IPv4 and hardware addresses as a schedule writes them: what is an address, which subnet it is in, whether a unit may
// bear it. Arithmetic and published ranges only; nothing is asked of a network.

type AddressRead = { type: 'address'; value: number; prefix: number | null } | { type: 'bad'; why: string };

/**
 * Reads `192.0.2.7` or `192.0.2.7/26` to a number from 0 to 2^32 - 1 and the prefix length in bits. Numbers with leading
 * zeros are refused: some programs read them as octal (RFC 6943 section 3.1.1).
 */
export function textToAddress(text: string): AddressRead {
  const match = /^(\d+)\.(\d+)\.(\d+)\.(\d+)(?:\/(\d+))?$/.exec(text.trim());
  if (!match) return { type: 'bad', why: 'it is not four numbers with dots between' };
  const parts = match.slice(1, 5);
  if (parts.some((part) => Number(part) > 255)) return { type: 'bad', why: 'a number in it is above 255' };
  if (parts.some((part) => part.length > 1 && part.startsWith('0')))
    return { type: 'bad', why: 'a number in it begins with 0, which is read in two ways' };
  const prefix = match[5] === undefined ? null : Number(match[5]);
  if (prefix !== null && prefix > 32) return { type: 'bad', why: 'its prefix is above 32 bits' };
  return { type: 'address', value: parts.reduce((sum, part) => sum * 256 + Number(part), 0), prefix };
}

export function addressToText(value: number): string {
  return [24, 16, 8, 0].map((shift) => Math.floor(value / 2 ** shift) % 256).join('.');
}

export interface Subnet {
  network: number;
  /** The last address; of /31 and /32 no broadcast (RFC 3021). */
  last: number;
  prefix: number;
  /** Addresses that a unit may bear. */
  hosts: number;
}

/** @param prefix Bits of the network part, 0 to 32 (CIDR, RFC 4632). */
export function subnetOf(value: number, prefix: number): Subnet {
  const size = 2 ** (32 - prefix);
  const network = Math.floor(value / size) * size;
  return { network, last: network + size - 1, prefix, hosts: prefix >= 31 ? size : size - 2 };
}

export function isWithin(value: number, { network, last }: Subnet): boolean {
  return value >= network && value <= last;
}

export function subnetsOverlap(a: Subnet, b: Subnet): boolean {
  return a.network <= b.last && b.network <= a.last;
}

/** Ranges that no unit bears as an address of its own (RFC 6890, RFC 5771 for multicast). */
const NEVER: readonly [first: string, prefix: number, why: string][] = [
  ['0.0.0.0', 8, 'means this network and no unit'],
  ['127.0.0.0', 8, 'is the unit’s own loopback'],
  ['224.0.0.0', 4, 'is a multicast group, not a unit'],
  ['255.255.255.255', 32, 'is the broadcast address'],
  ['240.0.0.0', 4, 'is reserved'],
];

/** Why a unit cannot bear this address; null when it can. The subnet counts where it is known. */
export function hostFault(value: number, subnet: Subnet | null): string | null {
  for (const [first, prefix, why] of NEVER) {
    const read = textToAddress(first);
    if (read.type === 'address' && isWithin(value, subnetOf(read.value, prefix))) return why;
  }
  if (!subnet || subnet.prefix >= 31) return null;
  if (value === subnet.network) return 'names the subnet itself';
  if (value === subnet.last) return 'is the broadcast address of its subnet';
  return null;
}

/** 169.254.0.0/16: an address that a unit takes when nobody gives it one (RFC 3927). */
export function isLinkLocal(value: number): boolean {
  return Math.floor(value / 2 ** 16) === 169 * 256 + 254;
}

/** `255.255.255.192`, `/26` or `26` as bits of the network part; null for a text that is no mask. */
export function maskToPrefix(text: string): number | null {
  const bits = /^\/?(\d{1,2})$/.exec(text.trim())?.[1];
  if (bits !== undefined) return Number(bits) <= 32 ? Number(bits) : null;
  const read = textToAddress(text);
  if (read.type === 'bad' || read.prefix !== null) return null;
  const hosts = 2 ** 32 - read.value;
  return Number.isInteger(Math.log2(hosts)) ? 32 - Math.log2(hosts) : null;
}

/**
 * Twelve hexadecimal digits in upper case; null when it is no hardware address. Taken are the groups of two that IEEE Std
 * 802 and RFC 9542 write with hyphens and others with colons, zeros in front left out or not, groups of four with dots,
 * and none.
 */
export function textToMac(text: string): string | null {
  const said = text.trim();
  const groups = said.split(/[-:.\s]/);
  const short = groups.length === 6 && groups.every((group) => /^[0-9a-f]{1,2}$/i.test(group));
  const digits = short ? groups.map((group) => group.padStart(2, '0')).join('') : groups.join('');
  return /^[0-9a-f]{12}$/i.test(digits) ? digits.toUpperCase() : null;
}

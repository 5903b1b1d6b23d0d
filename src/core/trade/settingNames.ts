// Values that a page, a plate or a knob shows: what each is called, whether it is a whole unit's or one jack's, and when
// two texts say the same. Facts of the trade only; what a plan has is asked elsewhere.
import { maskToPrefix, textToAddress, textToMac } from './addresses.ts';
import { nameToKey } from './names.ts';
import { textToPhantom } from './phantom.ts';

/** Name of the setting under which an address table's entry at a switch port is recorded. */
export const HARDWARE_ADDRESS = 'hardware address learned';

interface SettingKind {
  /** As most plans call it; the others are the same thing (common practice, no source). */
  name: string;
  also: readonly string[];
  of: 'unit' | 'jack';
  compare: (a: string, b: string) => boolean;
}

/** Trimmed, without regard to capitals; runs of separators are one. */
const sameText = (a: string, b: string) => nameToKey(a) === nameToKey(b);
const sameBy =
  <T>(read: (text: string) => T | null) =>
  (a: string, b: string) => {
    const [one, other] = [read(a), read(b)];
    return one !== null && other !== null ? one === other : sameText(a, b);
  };
const samePhantom = sameBy(textToPhantom);

const kind = (
  of: SettingKind['of'],
  name: string,
  also: readonly string[] = [],
  compare: SettingKind['compare'] = sameText,
): SettingKind => ({ name, also, of, compare });

const KINDS: readonly SettingKind[] = [
  kind('unit', 'address', ['ip', 'ip address', 'ipv4', 'ipv4 address', 'ip addr'], sameAddress),
  kind(
    'unit',
    'mac',
    ['mac address', 'hardware address', 'hw address', 'ethernet address', 'physical address', 'mac id'],
    sameBy(textToMac),
  ),
  kind('unit', 'serial', ['serial number', 'serial no', 's/n', 'sn', 'ser no']),
  kind('unit', 'mask', ['subnet mask', 'netmask', 'net mask', 'subnet'], sameBy(maskToPrefix)),
  kind('unit', 'gateway', ['default gateway', 'gw', 'router'], sameAddress),
  kind('unit', 'host name', ['hostname', 'host', 'device name']),
  kind('unit', 'firmware', ['firmware version', 'software', 'software version', 'version', 'fw']),
  kind('unit', 'model', ['type', 'model number']),
  kind('jack', 'phantom', ['phantom power', '+48v', '+48', '48v', '48 v', '+48 v', 'p48'], samePhantom),
  kind('jack', 'gain', ['mic gain', 'preamp gain', 'input gain']),
  kind('jack', 'pad'),
  kind('jack', 'channel', ['channel number', 'channel no', 'ch']),
  kind('jack', 'name', ['source name', 'source', 'input name']),
  kind('jack', 'multicast', ['multicast address'], sameAddress),
  kind('jack', 'microphone', ['mic', 'mic type', 'microphone type']),
  kind('jack', 'polarity'),
  kind('jack', 'legs'),
  kind('jack', HARDWARE_ADDRESS, ['mac learned', 'learned mac'], sameBy(textToMac)),
];

/** The name as it is compared: `Serial no.` as `SERIAL-NO`. */
function toKey(name: string): string {
  return nameToKey(name).replace(/-+$/, '');
}

const BY_NAME = new Map(KINDS.flatMap((one) => [one.name, ...one.also].map((name) => [toKey(name), one] as const)));
const NAMES = new Map(KINDS.map((one) => [one, [...new Set([one.name, ...one.also].map(toKey))]] as const));

/** One key for all that a setting is called, and every key that it may stand under in a plan, the usual one first. */
export function settingNameKeys(name: string): { key: string; all: readonly string[] } {
  const known = BY_NAME.get(toKey(name));
  if (!known) return { key: nameToKey(name), all: [nameToKey(name)] };
  return { key: toKey(known.name), all: NAMES.get(known)! };
}

/** Whose such a value usually is; null where the name does not tell. */
export function settingOwner(name: string): 'unit' | 'jack' | null {
  return BY_NAME.get(toKey(name))?.of ?? null;
}

/**
 * Do the two texts say the same? Addresses and hardware addresses by value in whatever notation, phantom by what it
 * means, all else without regard to capitals and to spaces around it.
 */
export function sameValue(name: string, a: string, b: string): boolean {
  return (BY_NAME.get(toKey(name))?.compare ?? sameText)(a, b);
}

/** By value; a prefix counts where both say one. Several in one cell: any of them. */
function sameAddress(a: string, b: string): boolean {
  const [as, bs] = [toAddresses(a), toAddresses(b)];
  if (as === null || bs === null) return sameText(a, b);
  return as.some((one) =>
    bs.some(
      (other) =>
        one.value === other.value && (one.prefix === null || other.prefix === null || one.prefix === other.prefix),
    ),
  );
}

function toAddresses(text: string): { value: number; prefix: number | null }[] | null {
  const found = text
    .trim()
    .split(/[\s,;]+/)
    .map((part) => textToAddress(unpadded(part)));
  const read = found.flatMap((one) => (one.type === 'address' ? [one] : []));
  return read.length === found.length ? read : null;
}

/**
 * A front panel that shows three figures in each place means decimal (common practice, no source); fewer zeros in front
 * stay what RFC 6943 section 3.1.1 warns of and are not read.
 */
function unpadded(text: string): string {
  return /^(\d{3}\.){3}\d{3}$/.test(text) ? text.replace(/\b0+(?=\d)/g, '') : text;
}

/** What two claims to one value are held against each other by. */
export function valueKey(name: string, value: string): string {
  const { key } = settingNameKeys(name);
  if (key !== 'ADDRESS') return nameToKey(value);
  const read = toAddresses(value);
  return read?.length === 1 ? String(read[0]!.value) : nameToKey(value);
}

/** From which character on two values differ, counted from 1 in the notation they are compared in, and the rest of each. */
export function differFrom(
  name: string,
  found: string,
  plan: string,
): { from: number; found: string; plan: string } | null {
  const read = settingNameKeys(name).key === 'MAC' ? (text: string) => textToMac(text) ?? nameToKey(text) : nameToKey;
  const [a, b] = [read(found), read(plan)];
  if (a === b) return null;
  let at = 0;
  while (a[at] === b[at]) at += 1;
  return { from: at + 1, found: a.slice(at), plan: b.slice(at) };
}

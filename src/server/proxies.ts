// Whose address counts when a proxy stands in front. A header that anybody can write is believed only as far as it was
// written by proxies that the operator has named.
import { BlockList, isIP } from 'node:net';

export type TrustedProxies = BlockList;

/** Addresses and networks (`10.0.0.0/8`, `fd00::/8`), parted by commas or blanks. Throws a sentence for the operator. */
export function readProxies(text: string): TrustedProxies {
  const list = new BlockList();
  for (const said of text.split(/[\s,]+/).filter(Boolean)) {
    const [address = '', bits, more] = said.split('/');
    const family = familyOf(address);
    const most = family === 'ipv4' ? 32 : 128;
    const prefix = bits === undefined ? most : Number(bits);
    const sound = /^\d{1,3}$/.test(bits ?? '0') && prefix <= most && more === undefined;
    if (family === null || !sound) {
      throw new Error(
        `ASFOUND_TRUSTED_PROXIES names “${said}”, which is no address or network. It takes such as 10.0.0.5, 10.0.0.0/8 or fd00::/8.`,
      );
    }
    list.addSubnet(address, prefix, family);
  }
  return list;
}

/**
 * The address of whoever asks. `forwarded` (X-Forwarded-For) is read from its end, where the nearest proxy has written,
 * and only past those that are trusted: what stands further left may have been written by the asker.
 */
export function clientAddress(socket: string, forwarded: string | undefined, trusted?: TrustedProxies): string {
  let nearest = plain(socket);
  if (!trusted) return nearest;
  const hops = (forwarded ?? '').split(',').map((hop) => hop.trim());
  while (isTrusted(nearest, trusted)) {
    const next = hopToAddress(hops.pop() ?? '');
    // A trusted proxy that says nothing readable is itself the last thing known.
    if (next === null) return nearest;
    nearest = next;
  }
  return nearest;
}

/** One bucket for all addresses that one subscriber has: of IPv6 that is at least a network of 64 bits. */
export function toBucketKey(address: string): string {
  if (isIP(address) !== 6) return address;
  const [head = '', tail = ''] = address.replace(/%.*$/, '').split('::');
  const left = head.split(':').filter(Boolean);
  const right = tail.split(':').filter(Boolean);
  const groups = [...left, ...Array.from({ length: Math.max(0, 8 - left.length - right.length) }, () => '0'), ...right];
  return `${groups
    .slice(0, 4)
    .map((group) => Number.parseInt(group, 16).toString(16))
    .join(':')}::/64`;
}

function isTrusted(address: string, trusted: TrustedProxies): boolean {
  const family = familyOf(address);
  return family !== null && trusted.check(address, family);
}

/** Some proxies write a port behind it, IPv6 then in brackets. */
function hopToAddress(hop: string): string | null {
  const bare = /^\[([^\]]+)\](?::\d+)?$/.exec(hop)?.[1] ?? /^([\d.]+):\d+$/.exec(hop)?.[1] ?? hop;
  return isIP(bare) === 0 ? null : plain(bare);
}

/** An IPv4 address that a socket for both families shows in the form of IPv6. */
function plain(address: string): string {
  return /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1] ?? address;
}

function familyOf(address: string): 'ipv4' | 'ipv6' | null {
  const kind = isIP(address);
  return kind === 0 ? null : kind === 4 ? 'ipv4' : 'ipv6';
}

// SHA-256 as lower-case hex. Never to be called inside a database transaction: waiting for it would end the
// transaction early.

export async function bytesToHash(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

export function textToHash(text: string): Promise<string> {
  return bytesToHash(new TextEncoder().encode(text));
}

/** As `SHA_PATTERN` of the wire, without its schemas: the first screen does not load them. */
export const SHA_NAME = /^[0-9a-f]{64}$/;

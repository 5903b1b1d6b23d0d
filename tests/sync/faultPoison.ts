// Entries that a broken or hostile phone of the station could send: valid enough for the server to keep, and meant to
// stop others. Sent straight to the server, past the proxy.
import { WIRE_HEADER, WIRE_VERSION } from '../../src/wire/sync.ts';

const FAR = 2 ** 53 - 2;

/** @param logs Of the phones, where they have one. Throws when the server is down. */
export async function pushPoison(
  port: number,
  token: string,
  station: string,
  logs: (string | null)[],
  random: () => number,
): Promise<void> {
  const named = logs.filter((log) => log !== null);
  const log = named[Math.floor(random() * named.length)] ?? 'log-x';
  const id = () => `poison-${Math.floor(random() * 1e12).toString(36)}`;
  const made = (over: Record<string, unknown>) => {
    const own = {
      v: 1,
      id: id(),
      station,
      log: `log-${id()}`,
      seq: 0,
      prev: null,
      author: 'Nobody',
      at: 1.8e12,
      zone: 0,
    };
    return JSON.stringify({ ...own, kind: 'note', payload: { text: 'poison' }, ...over });
  };
  const texts = [
    // In a phone's own log, where nobody can go on after it.
    made({ log, seq: FAR, prev: 'f'.repeat(64) }),
    // One that the phone may have reached itself, with another text.
    made({ log, seq: Math.floor(random() * 20), prev: '0'.repeat(64) }),
    made({ at: 1e308 }),
    made({ at: 4_102_444_800_000, kind: 'station-named', payload: { name: 'Of the future' } }),
    made({ kind: 'plan-adopted', payload: { revision: '../health', name: 'No plan', bytes: 1 } }),
    made({ kind: 'photo', payload: { document: 'd'.repeat(64), mime: 'image/jpeg', bytes: 1, width: 1, height: 1 } }),
    made({ kind: 'of-a-later-time', payload: { anything: [1, 2] } }),
    made({ v: 99, payload: {} }),
    made({ payload: { text: '\u0000\u202e'.repeat(500) } }),
  ];
  const answer = await fetch(`http://127.0.0.1:${port}/api/events`, {
    method: 'POST',
    headers: {
      [WIRE_HEADER]: String(WIRE_VERSION),
      authorization: `Bearer ${token}`,
      'content-type': 'application/json',
    },
    body: JSON.stringify({ texts }),
  });
  await answer.arrayBuffer();
}

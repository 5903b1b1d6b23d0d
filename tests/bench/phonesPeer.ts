// The peer of the measured phones: the same entries as items of one Yjs array, exchanged by state vectors over HTTP with
// a small server in this process. It keeps them in memory only and checks nothing, so it is the bound below.
import { createServer, type IncomingMessage } from 'node:http';
import * as Y from 'yjs';
import { inTurns, type LoadSize } from './phonesMade.ts';

export const PEER = 'Yjs 13.6, in memory, this process';

export type PeerLoad = { seconds: number; push: number[]; held: number[] };

type Client = { doc: Y.Doc; batches: string[][]; next: number; known: Uint8Array; follows: boolean };

export async function runPeer(size: LoadSize, batches: readonly string[][][]): Promise<PeerLoad> {
  const server = await startPeer();
  const clients = batches.map((mine, i): Client => {
    const doc = new Y.Doc();
    return { doc, batches: mine, next: 0, known: Y.encodeStateVector(doc), follows: i < size.followers };
  });
  const push: number[] = [];
  const pull = async ({ doc }: Client) => {
    Y.applyUpdate(doc, await server.ask('/missing', Y.encodeStateVector(doc)));
    return false;
  };
  const pushOne = async (client: Client) => {
    entries(client.doc).push(client.batches[client.next] ?? []);
    client.next += 1;
    const from = performance.now();
    client.known = await server.ask('/updates', Y.encodeStateAsUpdate(client.doc, client.known));
    push.push(performance.now() - from);
    if (client.follows) await pull(client);
    return client.next < client.batches.length;
  };
  try {
    const from = performance.now();
    await inTurns(clients, size.atOnce, pushOne);
    const seconds = (performance.now() - from) / 1000;
    const followers = clients.filter(({ follows }) => follows);
    await inTurns(followers, size.atOnce, pull);
    return { seconds, push, held: followers.map(({ doc }) => new Set(entries(doc).toArray()).size) };
  } finally {
    await server.stop();
  }
}

function entries(doc: Y.Doc): Y.Array<string> {
  return doc.getArray<string>('events');
}

async function startPeer() {
  const doc = new Y.Doc();
  const answerTo = (path: string | undefined, body: Uint8Array): Uint8Array => {
    if (path === '/missing') return Y.encodeStateAsUpdate(doc, body);
    Y.applyUpdate(doc, body);
    return Y.encodeStateVector(doc);
  };
  const server = createServer((request, response) => {
    void readAll(request).then((body) => response.end(answerTo(request.url, body)));
  });
  await new Promise<void>((open) => server.listen(0, '127.0.0.1', open));
  const address = server.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  const once = async (path: string, body: Uint8Array<ArrayBuffer>) => {
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, { method: 'POST', body });
    if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
    return new Uint8Array(await answer.arrayBuffer());
  };
  return {
    ask: async (path: string, body: Uint8Array) => {
      const own = new Uint8Array(body);
      return await once(path, own).catch(() => once(path, own));
    },
    stop: async () => {
      server.closeAllConnections();
      await new Promise((closed) => server.close(closed));
    },
  };
}

async function readAll(request: IncomingMessage): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  for await (const part of request) parts.push(part as Uint8Array);
  return Buffer.concat(parts);
}

// Requests byte by byte, for what no well-behaved client would send. Only to 127.0.0.1.
import { connect } from 'node:net';

export type RawAnswer = { status: number; headers: string; body: string } | 'closed';

/** How the sender leaves: with a goodbye, or as a phone does that goes out of reach. */
export type Cut = 'end' | 'reset';

/** Sends the pieces, leaves if asked, and reads until the server closes. */
export async function sendRaw(port: number, pieces: (string | Uint8Array)[], cut?: Cut): Promise<RawAnswer> {
  const socket = connect({ port, host: '127.0.0.1', allowHalfOpen: true });
  const parts: Buffer[] = [];
  const gone = new Promise<void>((done) => {
    socket.on('data', (part) => parts.push(part));
    socket.on('end', () => socket.end());
    // A server that has answered may reset what is still coming.
    socket.on('error', () => undefined);
    socket.on('close', () => done());
  });
  for (const piece of pieces) {
    await new Promise<void>((sent) => socket.write(piece, () => sent()));
    if (socket.destroyed) break;
  }
  if (cut === 'end') socket.end();
  if (cut === 'reset') socket.resetAndDestroy();
  await gone;
  return readAnswer(Buffer.concat(parts));
}

function readAnswer(bytes: Buffer): RawAnswer {
  const text = bytes.toString('latin1');
  // Leave to go on comes before the answer.
  if (text.startsWith('HTTP/1.1 100')) return readAnswer(bytes.subarray(text.indexOf('\r\n\r\n') + 4));
  const status = /^HTTP\/1\.1 (\d{3})/.exec(text)?.[1];
  const at = text.indexOf('\r\n\r\n');
  if (status === undefined || at === -1) return 'closed';
  const headers = text.slice(0, at);
  // Answers of errors are short and come in one piece; of a chunked one the first chunk is enough here.
  const body = bytes.subarray(at + 4).toString('utf8');
  return {
    status: Number(status),
    headers,
    body: /chunked/i.test(headers) ? body.replace(/^[0-9a-f]+\r\n/i, '') : body,
  };
}

type Said = {
  token?: string;
  headers?: string[];
  body?: string | Uint8Array;
  length?: number;
  wire?: string | null;
};

/** One request as its bytes; whatever is not said is what our own phones send. */
export function request(
  line: string,
  { token, headers = [], body, length, wire = '1' }: Said = {},
): (string | Uint8Array)[] {
  const bytes = typeof body === 'string' ? Buffer.from(body, 'utf8') : body;
  const head = [
    `${line} HTTP/1.1`,
    'Host: localhost',
    'Connection: close',
    ...(wire === null ? [] : [`asfound-wire: ${wire}`]),
    ...(token === undefined ? [] : [`Authorization: Bearer ${token}`]),
    ...(bytes || length !== undefined ? [`Content-Length: ${length ?? bytes?.byteLength}`] : []),
    ...headers,
  ];
  return [`${head.join('\r\n')}\r\n\r\n`, ...(bytes ? [bytes] : [])];
}

/** A body without a length, in chunks of HTTP. */
export function chunked(line: string, said: Said, pieces: (string | Uint8Array)[]): (string | Uint8Array)[] {
  const head = request(line, { ...said, headers: [...(said.headers ?? []), 'Transfer-Encoding: chunked'] });
  const framed = pieces.flatMap((piece) => [Buffer.byteLength(piece).toString(16), '\r\n', piece, '\r\n']);
  return [...head, ...framed, '0\r\n\r\n'];
}

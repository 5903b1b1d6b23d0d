// Hostile requests, first table: what is wrong with their form, their path, their method or their token.
import { WIRE_HEADER } from '../../src/wire/sync.ts';
import { type Cut, chunked, request } from './rawSocket.ts';

/** What the requests may name of the server that is tried. */
export type Target = {
  token: string;
  /** Of a phone of another station. */
  stranger: string;
  revoked: string;
  /** Hash of a document held, and the bytes of one that is not. */
  held: string;
  picture: Uint8Array<ArrayBuffer>;
  history: string;
  /** Given out for an event and for a document. */
  eventMark: string;
  documentMark: string;
};

/**
 * `outcome`: status and type of the error; of a batch the answers to its texts; the status alone where Node answers
 * before the app is asked; or `closed` where there is no answer to give.
 */
export type Hostile = { what: string; pieces: (string | Uint8Array)[]; outcome: string; cut?: Cut };

const LINE = 'GET /api/phones';

function brokenHttp({ token }: Target): Hostile[] {
  const raw = (what: string, text: string, outcome = '400'): Hostile => ({ what, pieces: [text], outcome, cut: 'end' });
  const head = `POST /api/events HTTP/1.1\r\nHost: localhost\r\nasfound-wire: 1\r\nAuthorization: Bearer ${token}\r\n`;
  return [
    raw('a TLS greeting', '\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03'),
    raw('no HTTP at all', 'hello\r\n\r\n'),
    raw('a version of HTTP that is none', 'GET /api/health HTTP/9.9\r\nHost: localhost\r\n\r\n'),
    raw('no host', 'GET /api/health HTTP/1.1\r\n\r\n'),
    raw('a blank before the colon', `${head}Content-Length : 2\r\n\r\n{}`),
    raw('a NUL in a header', `${head}X-Odd: a\0b\r\n\r\n`),
    raw('two lengths that differ', `${head}Content-Length: 2\r\nContent-Length: 40\r\n\r\n{}`),
    raw('a length and chunks', `${head}Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n`),
    raw('a length below nothing', `${head}Content-Length: -1\r\n\r\n`),
    raw('a length in words', `${head}Content-Length: two\r\n\r\n{}`),
    raw('a coding of HTTP that is none', `${head}Transfer-Encoding: cow\r\n\r\n{}`),
    raw('a chunk whose size is none', `${head}Transfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n`),
    raw('a method that is none', 'SMASH /api/events HTTP/1.1\r\nHost: localhost\r\n\r\n'),
    raw('a head that breaks off', 'GET /api/health HTTP/1.1\r\nHost: loc'),
    raw('a tunnel', 'CONNECT localhost:22 HTTP/1.1\r\nHost: localhost\r\n\r\n', 'closed'),
    {
      what: 'a header of 100 kB',
      pieces: request(LINE, { token, headers: [`X-Big: ${'a'.repeat(100_000)}`] }),
      outcome: '431',
    },
    {
      what: 'a thousand headers',
      pieces: request(LINE, { token, headers: Array(1000).fill('X-Many: aaaaaaaaaaaaaaa') }),
      outcome: '431',
    },
    { what: 'a path of 20 kB', pieces: request(`GET /api/${'a'.repeat(20_000)}`, { token }), outcome: '431' },
  ];
}

function tokens({ token, revoked }: Target): Hostile[] {
  const ask = (what: string, headers: string[], outcome = '401 unauthorised', line = LINE): Hostile => ({
    what,
    pieces: request(line, { headers }),
    outcome,
  });
  return [
    ask('no token', []),
    ask('an empty token', ['Authorization: Bearer ']),
    ask('a token of another scheme', [`Authorization: Basic ${token}`]),
    ask('a token one sign too long', [`Authorization: Bearer ${token}a`]),
    ask('a token one sign too short', [`Authorization: Bearer ${token.slice(1)}`]),
    ask('a token in other letters', [`Authorization: Bearer ${token.toLowerCase()}`]),
    ask('a token with SQL in it', [`Authorization: Bearer ' or 1=1 --${'a'.repeat(30)}`]),
    ask('a wrong token before the right one', [
      `Authorization: Bearer ${'A'.repeat(43)}`,
      `Authorization: Bearer ${token}`,
    ]),
    ask('a token in the address', [], '401 unauthorised', `GET /api/phones?token=${token}`),
    ask('a token in a cookie', [`Cookie: token=${token}`]),
    ask('the token of a phone that was removed', [`Authorization: Bearer ${revoked}`], '401 revoked'),
  ];
}

function versions({ token }: Target): Hostile[] {
  const ask = (wire: string | null, outcome: string, headers: string[] = []): Hostile => ({
    what: `version ${wire ?? 'not told'}${headers.length > 0 ? ' twice' : ''}`,
    pieces: request(LINE, { token, wire, headers }),
    outcome,
  });
  return [
    ask(null, '400 bad-request'),
    ask('', '400 bad-request'),
    ask('-1', '400 bad-request'),
    ask('1e0', '400 bad-request'),
    ask('NaN', '400 bad-request'),
    ask('9'.repeat(400), '400 bad-request'),
    ask('0', '426 phone-too-old'),
    ask('999999', '426 server-too-old'),
    ask('1', '400 bad-request', [`${WIRE_HEADER}: 1`]),
  ];
}

function paths({ token, held }: Target): Hostile[] {
  const ask = (line: string, outcome = '404 not-found'): Hostile => ({
    what: line,
    pieces: request(line, { token }),
    outcome,
  });
  return [
    ask('GET /api/documents/..%2f..%2fetc%2fpasswd'),
    ask('GET /api/documents/../../../etc/passwd'),
    ask('GET /..%2f..%2fetc%2fpasswd'),
    ask('GET /%c0%ae%c0%ae/etc/passwd'),
    ask('GET /api/documents/%00'),
    ask('GET /api/documents/%ff%fe'),
    ask(`GET /api/documents/${held.toUpperCase()}`),
    ask(`GET /api/documents/${held}%00`),
    ask(`GET /api/documents/${held}a`),
    ask(`GET /api/documents/${held.slice(1)}`),
    ask(`GET /api/documents/%00/parts`),
    ask(`GET //api//documents//${held}`),
    ask('GET /api/documents/'),
    ask('GET /api/%E0%A4%A'),
    ask('GET /api/__proto__'),
    ask('DELETE /api/phones/%00'),
    ask('DELETE /api/phones/%ff'),
    ask('DELETE /api/phones/%E0%A4%A'),
    ask('DELETE /api/phones/..'),
    ask(`DELETE /api/phones/${'p'.repeat(5000)}`),
    ask("DELETE /api/phones/'%20or%201=1--"),
    ask('DELETE /api/phones/p-none'),
    ask('DELETE /api/phones/'),
  ];
}

function methods({ token, held }: Target): Hostile[] {
  const ask = (line: string, outcome = '404 not-found', body?: string): Hostile => ({
    what: line,
    pieces: request(line, { token, ...(body === undefined ? {} : { body }) }),
    outcome,
  });
  return [
    ask('PATCH /api/events', '404 not-found', '{}'),
    ask('PUT /api/events', '404 not-found', '{"texts":[]}'),
    ask('DELETE /api/events'),
    ask(`DELETE /api/documents/${held}`),
    ask(`PATCH /api/documents/${held}`, '404 not-found', 'x'),
    ask(`DELETE /api/documents/${held}/parts/0`),
    ask(`POST /api/documents/${held}/parts/0`, '404 not-found', 'x'),
    ask('OPTIONS /api/events'),
    ask('PROPFIND /api/events'),
    ask('GET /api/compare'),
    ask('GET /api/pair'),
    ask('POST /api/phones', '404 not-found', '{}'),
    ask('POST /api/not-a-route', '404 not-found', '{"a":1}'),
  ];
}

/** The sender says goodbye in the middle, and Node answers; or is gone, and nobody is there to be answered. */
function cutBodies({ token, picture, held }: Target): Hostile[] {
  const name = 'a'.repeat(64);
  const broken: [string, (string | Uint8Array)[]][] = [
    ['a batch', request('POST /api/events', { token, body: '{"texts":[', length: 400 })],
    ['a batch in chunks', chunked('POST /api/events', { token }, ['{"texts":']).slice(0, -1)],
    [
      'a document',
      request(`PUT /api/documents/${name}`, {
        token,
        body: picture,
        length: 99,
        headers: ['Content-Type: image/jpeg'],
      }),
    ],
    [
      'a part',
      request(`PUT /api/documents/${name}/parts/0`, {
        token,
        body: 'x',
        length: 99,
        headers: [`asfound-part: ${held}`],
      }),
    ],
  ];
  return broken.flatMap(([what, pieces]): Hostile[] => [
    { what: `${what} that breaks off`, pieces, outcome: '400', cut: 'end' },
    { what: `${what} whose sender is gone`, pieces, outcome: 'closed', cut: 'reset' },
  ]);
}

export function hostileForm(target: Target): Hostile[] {
  return [brokenHttp, tokens, versions, paths, methods, cutBodies].flatMap((table) => table(target));
}

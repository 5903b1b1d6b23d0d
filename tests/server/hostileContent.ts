// Hostile requests, second table: well-formed ones of a paired phone whose content is wrong.
import { gzipSync } from 'node:zlib';
import { DOCUMENT_CHUNK_BYTES } from '../../src/wire/limits.ts';
import { eventText, sha } from './help.ts';
import type { Hostile, Target } from './hostileForm.ts';
import { chunked, request } from './rawSocket.ts';

const BAD = '400 bad-request';
const JPEG = ['Content-Type: image/jpeg'];

function batches({ token }: Target): Hostile[] {
  const line = 'POST /api/events';
  const push = (what: string, body: string | Uint8Array, outcome = BAD, headers: string[] = []): Hostile => ({
    what,
    pieces: request(line, { token, body, headers }),
    outcome,
  });
  const one = (what: string, text: string, outcome: string): Hostile =>
    push(what, JSON.stringify({ texts: [text] }), `200 ${outcome}`);
  const full = JSON.stringify({ texts: Array(201).fill('') });
  return [
    { what: 'a batch without a body', pieces: request(line, { token }), outcome: BAD },
    push('null', 'null'),
    push('a list', '[]'),
    push('no texts', '{}'),
    push('texts that are numbers', '{"texts":[1]}'),
    push('one that names a prototype', '{"__proto__":{"texts":[]}}'),
    push('201 texts', full),
    push('brackets a hundred thousand deep', `{"texts":${'['.repeat(100_000)}${']'.repeat(100_000)}}`),
    push('brackets that are never closed', '['.repeat(1_000_000)),
    push('half a character', new Uint8Array([0x22, 0xff, 0x22])),
    push('UTF-16', Buffer.from('{"texts":[]}', 'utf16le')),
    push('a mark of byte order', '\ufeff{"texts":[]}'),
    push('something after the end', '{"texts":[]}{"texts":[]}'),
    push('a bomb', gzipSync(Buffer.alloc(8_000_000)), BAD, ['Content-Encoding: gzip']),
    push('a coding twice', '{}', BAD, ['Content-Encoding: identity, gzip']),
    {
      what: 'a megabyte over the cap',
      pieces: request(line, { token, body: 'x'.repeat(5 << 20) }),
      outcome: '413 too-large',
    },
    {
      what: 'a megabyte over the cap without a length',
      pieces: chunked(line, { token }, Array(5).fill('x'.repeat(1 << 20))),
      outcome: '413 too-large',
    },
    one('an event that is no JSON', 'x', 'unreadable'),
    one('an event of another station', eventText('h1', { station: 'st-hill' }), 'other-station'),
    one('an event whose id holds a NUL', eventText('h\0h'), 'hostile-id'),
    one('an event whose log is a path', eventText('h2', { log: '../../log' }), 'hostile-id'),
    one('an event that is too long', eventText('h3', { payload: { text: 'x'.repeat(70_000) } }), 'too-long'),
    one('a sequence that is no whole number', eventText('h4', { seq: 1.5 }), 'unreadable'),
    one('a sequence beyond all counting', eventText('h5', { seq: 1e300 }), 'unreadable'),
    one('a time in words', eventText('h6', { at: 'noon' }), 'unreadable'),
    one('a time after all times', eventText('h11', { at: 1e308 }), 'unreadable'),
    one('a time before all times', eventText('h12', { at: -1 }), 'unreadable'),
    one('a zone that goes round the world', eventText('h13', { zone: 100_000 }), 'unreadable'),
    one('a raw NUL in the text', `${eventText('h7')}\0`, 'unreadable'),
    one('an event of brackets', '['.repeat(60_000), 'unreadable'),
    one(
      'a payload thirty thousand deep, of a kind from later',
      eventText('h8', { kind: 'later' }).replace('{"text":"note of h8"}', `${'['.repeat(30_000)}${']'.repeat(30_000)}`),
      'stored',
    ),
    one('a payload with a NUL in words', eventText('h9', { payload: { text: 'a\0b' } }), 'stored'),
    one('an author that names a prototype', eventText('h10').replace('"author"', '"__proto__":{},"author"'), 'stored'),
  ];
}

function cursors({ token, stranger, history, eventMark, documentMark }: Target): Hostile[] {
  const pull = (query: string, outcome: string, of = token): Hostile => ({
    what: `a pull with ${query.slice(0, 60)}`,
    pieces: request(`GET /api/events?${query}`, { token: of }),
    outcome,
  });
  const number = eventMark.split('-')[0];
  return [
    ...['after=1', 'after=-1', 'after=1e3-0', 'after=%00', 'after=0%27', 'after=0&limit=-1', 'after=0&limit=0'].map(
      (query) => pull(query, BAD),
    ),
    pull('after=0&limit=NaN', BAD),
    pull('after=0&limit=1.5', BAD),
    pull(`after=${number}-${'0'.repeat(16)}`, '409 cursor-lost'),
    pull(`after=999999999999999-${'0'.repeat(16)}`, '409 cursor-lost'),
    pull(`after=${documentMark}`, '409 cursor-lost'),
    pull(`after=${eventMark}`, '409 cursor-lost', stranger),
    pull('after=0&proof=0', BAD),
    pull('after=0&proof=%00', BAD),
    pull(`after=0&proof=${'9'.repeat(400)}`, BAD),
    pull(`after=0&proof=${number}-${'f'.repeat(16)}`, '409 cursor-lost'),
    pull(`after=0&proof=${documentMark}&history=${history}`, '409 cursor-lost', stranger),
    pull('after=0&history=', BAD),
    pull('after=0&history=%00', BAD),
    pull("after=0&history=h'%20or%201=1", BAD),
    pull('after=0&history=h-elsewhere', '409 cursor-lost'),
  ];
}

function comparisons({ token }: Target): Hostile[] {
  const ask = (what: string, json: unknown): Hostile => ({
    what: `a comparison ${what}`,
    pieces: request('POST /api/compare', { token, body: JSON.stringify(json) }),
    outcome: BAD,
  });
  const hash = sha('x');
  return [
    ask('of nothing', {}),
    ask('of 2001 documents', { events: [], documents: Array(2001).fill(hash) }),
    ask('of a path', { events: [], documents: ['../../etc/passwd'] }),
    ask('of an id with a NUL', { events: [{ id: 'a\0', hash }], documents: [] }),
    ask('of a hash in capitals', { events: [{ id: 'a', hash: hash.toUpperCase() }], documents: [] }),
    ask('of an id of a thousand signs', { events: [{ id: 'a'.repeat(1000), hash }], documents: [] }),
  ];
}

function documents({ token, stranger, held, picture }: Target): Hostile[] {
  const name = sha(picture);
  const put = (what: string, body: string | Uint8Array, outcome: string, headers = JPEG, path = name): Hostile => ({
    what,
    pieces: request(`PUT /api/documents/${path}`, { token, body, headers }),
    outcome,
  });
  const declared = (what: string, line: string, length: number, headers: string[]): Hostile => ({
    what,
    // Waits for leave to send it, as a browser does not; the answer comes first.
    pieces: request(line, { token, length, headers: [...headers, 'Expect: 100-continue'] }),
    outcome: '413 too-large',
  });
  const megabyte = new Uint8Array(DOCUMENT_CHUNK_BYTES);
  return [
    put('a document without a type', picture, '415 mime-refused', []),
    put('a page', '<script>alert(1)</script>', '415 mime-refused', ['Content-Type: text/html']),
    put('a drawing that can run', '<svg/>', '415 mime-refused', ['Content-Type: image/svg+xml']),
    put('two types at once', picture, '415 mime-refused', ['Content-Type: image/jpeg, text/html']),
    put('a page that calls itself a picture', '<html>', '415 mime-refused', JPEG, sha('<html>')),
    put('a document under another hash', picture, '422 hash-differs', JPEG, sha('y')),
    put('nothing, as a picture', '', '415 mime-refused', JPEG, sha('')),
    declared('a document that says it is too large', `PUT /api/documents/${name}`, 4 << 20, JPEG),
    {
      what: 'a document that is too large and does not say so',
      pieces: chunked(`PUT /api/documents/${name}`, { token, headers: JPEG }, Array(4).fill(megabyte)),
      outcome: '413 too-large',
    },
    {
      what: 'a document of another station',
      pieces: request(`GET /api/documents/${held}`, { token: stranger }),
      outcome: '404 not-found',
    },
    {
      what: 'a list of parts of no document',
      pieces: request(`GET /api/documents/${held}x/parts`, { token }),
      outcome: '404 not-found',
    },
    ...parts({ token, name, picture, declared }),
    ...joins(token, name),
  ];
}

type Declared = (what: string, line: string, length: number, headers: string[]) => Hostile;

function parts(given: { token: string; name: string; picture: Uint8Array; declared: Declared }): Hostile[] {
  const { token, name, picture, declared } = given;
  const put = (what: string, n: string, outcome: string, headers = [`asfound-part: ${name}`]): Hostile => ({
    what: `a part ${what}`,
    pieces: request(`PUT /api/documents/${name}/parts/${n}`, { token, body: picture, headers }),
    outcome,
  });
  return [
    // The server that is tried takes documents of three parts.
    ...['3', '-1', '00', '1.0', '%00', '%ff', '1e0', '99999999999999999999'].map((n) =>
      put(`numbered ${n}`, n, '404 not-found'),
    ),
    put('without its hash', '0', BAD, []),
    put('with half a hash', '0', BAD, [`asfound-part: ${name.slice(1)}`]),
    put('with its hash twice', '0', BAD, [`asfound-part: ${name}`, `asfound-part: ${name}`]),
    put('with the hash of another', '0', '422 hash-differs', [`asfound-part: ${sha('z')}`]),
    declared('a part over 1 MiB', `PUT /api/documents/${name}/parts/0`, DOCUMENT_CHUNK_BYTES + 1, [
      `asfound-part: ${name}`,
    ]),
    {
      what: 'a part over 1 MiB that does not say so',
      pieces: chunked(`PUT /api/documents/${name}/parts/0`, { token, headers: [`asfound-part: ${name}`] }, [
        new Uint8Array(DOCUMENT_CHUNK_BYTES),
        'x',
      ]),
      outcome: '413 too-large',
    },
  ];
}

function joins(token: string, name: string): Hostile[] {
  const join = (what: string, json: unknown, outcome: string, of = name): Hostile => ({
    what: `a joining ${what}`,
    pieces: request(`POST /api/documents/${of}`, { token, body: JSON.stringify(json) }),
    outcome,
  });
  const wrong = sha('a document whose part is another');
  const part = request(`PUT /api/documents/${wrong}/parts/0`, {
    token,
    body: 'wrong',
    headers: [`asfound-part: ${sha('wrong')}`],
  });
  const mime = 'application/octet-stream';
  return [
    join('without a word', {}, BAD),
    join('of a page', { mime: 'text/html', bytes: 5 }, BAD),
    join('of less than nothing', { mime, bytes: -1 }, BAD),
    join('of half a byte', { mime, bytes: 0.5 }, BAD),
    join('of more than can be counted', { mime, bytes: 1e300 }, BAD),
    join('of too much', { mime, bytes: 4 << 20 }, '413 too-large'),
    join('of parts that nobody sent', { mime, bytes: 5 }, '409 parts-missing', sha('never sent')),
    join('of nothing, under another hash', { mime, bytes: 0 }, '422 hash-differs'),
    join('under a name that is no hash', { mime, bytes: 5 }, '404 not-found', '%00'),
    { what: 'a part for the next', pieces: part, outcome: '201' },
    join('of a part that is another', { mime, bytes: 5 }, '422 hash-differs', wrong),
    join('of the part that was dropped for it', { mime, bytes: 5 }, '409 parts-missing', wrong),
  ];
}

function company({ token }: Target): Hostile[] {
  const ask = (line: string, json: unknown, outcome: string): Hostile => ({
    what: `${line} with ${JSON.stringify(json).slice(0, 50)}`,
    pieces: request(line, { token, body: JSON.stringify(json) }),
    outcome,
  });
  const said = { name: 'Ines', audit: null, unit: null, place: null };
  const pair = { code: '2222222222', phone: 'A', station: null };
  return [
    ask('POST /api/pair', { ...pair, code: 'x'.repeat(10_000) }, '413 too-large'),
    ask('POST /api/pair', { ...pair, code: 'x'.repeat(65) }, BAD),
    ask('POST /api/pair', { ...pair, code: '\0\0' }, '403 code-unknown'),
    ask('POST /api/pair', { ...pair, phone: 'a\0b' }, BAD),
    ask('POST /api/pair', { ...pair, phone: 'a'.repeat(201) }, BAD),
    ask('POST /api/pair', { ...pair, station: { id: '../st', name: 'x' } }, BAD),
    ask('POST /api/pair', pair, '403 code-unknown'),
    ask('POST /api/pair', [], BAD),
    ask('PUT /api/presence', {}, BAD),
    ask('PUT /api/presence', { at: { ...said, name: 'a\0b' } }, BAD),
    ask('PUT /api/presence', { at: { ...said, audit: '../..' } }, BAD),
    ask('PUT /api/presence', { at: { ...said, place: 'p'.repeat(401) } }, BAD),
    ask('PUT /api/presence', { at: { ...said, place: 'jack:\0' } }, '200'),
  ];
}

export function hostileContent(target: Target): Hostile[] {
  return [batches, cursors, comparisons, documents, company].flatMap((table) => table(target));
}

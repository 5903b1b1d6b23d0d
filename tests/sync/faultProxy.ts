// A way between phone and server on which everything happens that happens on real ones: requests and answers are lost,
// late, doubled and cut, and others answer in the server's place. It carries bytes and knows nothing of what they mean.
import {
  Agent,
  createServer,
  type IncomingHttpHeaders,
  type IncomingMessage,
  request,
  type ServerResponse,
} from 'node:http';
import type { AddressInfo, Socket } from 'node:net';

const FATES = [
  'carried',
  'late',
  'request-lost',
  'answer-lost',
  'doubled',
  'cut-up',
  'cut-down',
  'foreign-413',
  'foreign-200',
  'foreign-401',
  'foreign-502',
  'redirect',
  'portal',
] as const;
export type Fate = (typeof FATES)[number];
type Chances = Partial<Record<Fate, number>>;

export const CALM: Chances = { carried: 1 };
/** What a bad day looks like; weights. */
export const ROUGH: Chances = {
  carried: 60,
  late: 8,
  'request-lost': 6,
  'answer-lost': 8,
  doubled: 6,
  'cut-up': 4,
  'cut-down': 5,
  'foreign-413': 3,
  'foreign-200': 3,
  'foreign-401': 2,
  'foreign-502': 3,
  redirect: 3,
  portal: 3,
};
/** A hotel's network before anybody has logged in. */
export const CAPTIVE: Chances = { portal: 2, redirect: 2, 'foreign-200': 1 };
export const DEAD: Chances = { 'request-lost': 1 };

export type FaultProxy = {
  port: number;
  counts: Record<Fate, number>;
  /** Requests that have met their fate. */
  met: () => number;
  setChances: (chances: Chances) => void;
  /** Called once, when a request has gone on to the server and its answer is not here yet. */
  onNextForward: (call: () => void) => void;
  close: () => Promise<void>;
};

type ProxyParts = {
  /** Where the server is. */
  port: () => number;
  /** From 0 up to 1. */
  random: () => number;
};

const HTML = { 'content-type': 'text/html; charset=utf-8' };
const PAGE = '<!doctype html><title>Welcome</title><p>Log in to use this network.';
const LATE_MS = 120;

type Answer = { status: number; headers: IncomingHttpHeaders; body: Buffer };

export async function createFaultProxy(parts: ProxyParts): Promise<FaultProxy> {
  const counts = Object.fromEntries(FATES.map((fate) => [fate, 0])) as Record<Fate, number>;
  const agent = new Agent({ keepAlive: false });
  const sockets = new Set<Socket>();
  let chances: Chances = CALM;
  let met = 0;
  let forwarded: (() => void) | null = null;

  function choose(): Fate {
    const entries = FATES.map((fate) => [fate, chances[fate] ?? 0] as const);
    let left = parts.random() * entries.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [fate, weight] of entries) {
      left -= weight;
      if (left < 0) return fate;
    }
    return 'carried';
  }

  /** Null when there is no server, or it died over it. @param whole False: only the first half of the body goes out. */
  function forward(from: IncomingMessage, body: Buffer, whole = true): Promise<Answer | null> {
    return new Promise((done) => {
      const { host: _, connection: __, ...headers } = from.headers;
      const to = request({
        host: '127.0.0.1',
        port: parts.port(),
        method: from.method,
        path: from.url,
        headers,
        agent,
      });
      to.on('error', () => done(null));
      to.on('response', (answer) => {
        const pieces: Buffer[] = [];
        answer.on('data', (piece: Buffer) => pieces.push(piece));
        answer.on('end', () =>
          done({ status: answer.statusCode ?? 502, headers: answer.headers, body: Buffer.concat(pieces) }),
        );
        answer.on('error', () => done(null));
        answer.on('aborted', () => done(null));
      });
      if (whole) to.end(body);
      else to.write(body.subarray(0, body.length >> 1), () => to.destroy());
      const call = forwarded;
      forwarded = null;
      call?.();
    });
  }

  function reply(res: ServerResponse, answer: Answer | null, share = 1): void {
    if (answer === null) {
      res.destroy();
      return;
    }
    const { 'transfer-encoding': _, connection: __, ...headers } = answer.headers;
    const bodiless = res.req.method === 'HEAD';
    // What HEAD says of the length is of the body that it does not have.
    res.writeHead(
      answer.status,
      bodiless || answer.status === 204 ? headers : { ...headers, 'content-length': answer.body.length },
    );
    if (share === 1) res.end(answer.body);
    else res.write(answer.body.subarray(0, Math.floor(answer.body.length * share)), () => res.destroy());
  }

  async function meet(fate: Fate, req: IncomingMessage, res: ServerResponse, body: Buffer): Promise<void> {
    switch (fate) {
      case 'carried':
        return reply(res, await forward(req, body));
      case 'late':
        await new Promise((on) => setTimeout(on, parts.random() * LATE_MS));
        return reply(res, await forward(req, body));
      case 'request-lost':
        return void res.destroy();
      case 'answer-lost':
        await forward(req, body);
        return void res.destroy();
      case 'doubled':
        await forward(req, body);
        return reply(res, await forward(req, body));
      case 'cut-up':
        await forward(req, body, body.length === 0);
        return void res.destroy();
      case 'cut-down':
        return reply(res, await forward(req, body), 0.5);
      case 'foreign-413':
        return void res.writeHead(413, HTML).end('<h1>413 Request Entity Too Large</h1>');
      case 'foreign-200':
        return void res.writeHead(200, { 'content-type': 'application/json' }).end('{"status":"ok"}');
      case 'foreign-401':
        return void res.writeHead(401, HTML).end('<h1>401 Authorization Required</h1>');
      case 'foreign-502':
        return void res.writeHead(502, HTML).end('<h1>502 Bad Gateway</h1>');
      case 'redirect':
        return void res.writeHead(302, { location: '/portal' }).end();
      case 'portal':
        return void res.writeHead(200, HTML).end(PAGE);
    }
  }

  const server = createServer((req, res) => {
    const pieces: Buffer[] = [];
    req.on('data', (piece: Buffer) => pieces.push(piece));
    req.on('error', () => undefined);
    res.on('error', () => undefined);
    req.on('end', () => {
      // The page of a log-in, and the app's own files: no exchange.
      const api = (req.url ?? '').startsWith('/api/');
      if (req.url === '/portal') return void res.writeHead(200, HTML).end(PAGE);
      if ((req.url ?? '').startsWith('/api/live')) return stream(req, res);
      const fate = api ? choose() : 'carried';
      if (api) counts[fate] += 1;
      void meet(fate, req, res, Buffer.concat(pieces)).finally(() => {
        met += api ? 1 : 0;
      });
    });
  });

  /** News never end; they are passed on as they come. */
  function stream(req: IncomingMessage, res: ServerResponse): void {
    if (choose() !== 'carried') return void res.destroy();
    const { host: _, connection: __, ...headers } = req.headers;
    const to = request({ host: '127.0.0.1', port: parts.port(), path: req.url, headers, agent });
    to.on('error', () => res.destroy());
    to.on('response', (answer) => {
      res.writeHead(answer.statusCode ?? 502, answer.headers);
      answer.pipe(res);
      answer.on('error', () => res.destroy());
    });
    res.on('close', () => to.destroy());
    to.end();
  }

  server.on('connection', (socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
  });
  await new Promise<void>((open) => server.listen(0, '127.0.0.1', () => open()));
  return {
    port: (server.address() as AddressInfo).port,
    counts,
    met: () => met,
    setChances: (next) => {
      chances = next;
    },
    onNextForward: (call) => {
      forwarded = call;
    },
    close: async () => {
      for (const socket of sockets) socket.destroy();
      agent.destroy();
      await new Promise<void>((closed) => server.close(() => closed()));
    },
  };
}

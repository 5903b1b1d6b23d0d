// The hosts that one address names, and which of them takes writes. Only asks; keeps no connection.
import pg from 'pg';
import { failureText } from './databaseErrors.ts';

/** One server of those that the address names; `url` is for the driver, `name` may be printed. */
export type Host = { name: string; url: string };

/**
 * The form that libpq documents: `postgres://user@h1:p1,h2:p2/db`, or lists in the parameters `host` and `port`. One
 * port counts for all hosts. Throws a sentence when the two lists do not fit.
 */
export function urlToHosts(url: string): Host[] {
  const [, scheme = '', authority = '', rest = ''] = /^(postgres(?:ql)?:\/\/)([^/?#]*)(.*)$/s.exec(url) ?? [];
  if (!scheme) throw new Error('DATABASE_URL has to begin with postgres://.');
  const at = authority.lastIndexOf('@') + 1;
  const user = authority.slice(0, at);
  const [path = '', query = ''] = rest.split(/\?(.*)/s);
  const parameters = new URLSearchParams(query);
  const written = authority.slice(at).split(',').map(readHost);
  const hosts = parameters.get('host')?.split(',') ?? written.map((one) => one.host);
  const ports = parameters.get('port')?.split(',') ?? (parameters.has('host') ? [''] : written.map((one) => one.port));
  if (ports.length !== 1 && ports.length !== hosts.length) {
    throw new Error(`DATABASE_URL names ${hosts.length} hosts and ${ports.length} ports; name one port, or one each.`);
  }
  for (const name of ['host', 'port', 'target_session_attrs', 'load_balance_hosts']) parameters.delete(name);
  return hosts.map((host, i) => {
    const port = ports[i] || (ports.length === 1 ? ports[0] : '') || '5432';
    const own = new URLSearchParams(parameters);
    // As parameters, so that the folder of a socket and an IPv6 address need no second way of writing.
    own.set('host', host || 'localhost');
    own.set('port', port);
    return { name: `${host || 'localhost'}:${port}`, url: `${scheme}${user}localhost${path}?${own}` };
  });
}

function readHost(text: string): { host: string; port: string } {
  const [, host = '', port = ''] = /^(\[[^\]]*\]|[^:]*)(?::([0-9]*))?$/.exec(text) ?? [];
  return { host: decodeURIComponent(host.replace(/^\[|\]$/g, '')), port };
}

export type Found =
  | { type: 'primary'; host: Host; timeline: number }
  /** Nobody; what each host said. */
  | { type: 'none'; why: string; causes: unknown[] };

type Probe = { type: 'primary'; host: Host; timeline: number } | { type: 'other'; why: string; cause?: unknown };

/** After one primary has answered, the others get so long: a primary that was cut off may have a successor. */
const GRACE_MS = 300;

/**
 * Asks all hosts at once. Of two that take themselves for the primary, the one with the later timeline is: each
 * promotion begins a new one.
 * @param since No host of an earlier timeline is taken any more.
 */
export async function findPrimary(hosts: Host[], since: number, patienceMs: number): Promise<Found> {
  const answers: Probe[] = [];
  await new Promise<void>((done) => {
    let grace: NodeJS.Timeout | undefined;
    for (const host of hosts) {
      void probe(host, hosts.length > 1, patienceMs).then((answer) => {
        const fits = answer.type === 'primary' && answer.timeline >= since;
        const old = { type: 'other', why: `${host.name}: has been replaced by another primary` } as const;
        answers.push(answer.type === 'primary' && !fits ? old : answer);
        if (fits) grace ??= setTimeout(done, GRACE_MS);
        if (answers.length < hosts.length) return;
        clearTimeout(grace);
        done();
      });
    }
  });
  const [best] = answers
    .flatMap((one) => (one.type === 'primary' ? [one] : []))
    .sort((one, other) => other.timeline - one.timeline);
  if (best) return best;
  const others = answers.flatMap((one) => (one.type === 'other' ? [one] : []));
  return { type: 'none', why: others.map((one) => one.why).join('; '), causes: others.map((one) => one.cause) };
}

async function probe(host: Host, several: boolean, patienceMs: number): Promise<Probe> {
  const client = new pg.Client({
    connectionString: host.url,
    connectionTimeoutMillis: patienceMs,
    query_timeout: patienceMs,
  });
  // The same news comes as the rejection below; unheard, it would end the process.
  client.on('error', () => undefined);
  try {
    await client.connect();
    const { rows } = await client.query<{ standby: boolean }>('select pg_is_in_recovery() as standby');
    if (rows[0]?.standby !== false) return { type: 'other', why: `${host.name}: is a standby` };
    return { type: 'primary', host, timeline: several ? await timelineOf(client) : 0 };
  } catch (cause) {
    return { type: 'other', why: `${host.name}: ${failureText(cause)}`, cause };
  } finally {
    void client.end().catch(() => undefined);
  }
}

/** The first eight digits of the name of the log that is being written. Zero where a server has no such thing. */
async function timelineOf(client: pg.Client): Promise<number> {
  try {
    const text = 'select pg_walfile_name(pg_current_wal_lsn()) as file';
    const { rows } = await client.query<{ file: string }>(text);
    return Number.parseInt(rows[0]?.file.slice(0, 8) ?? '0', 16) || 0;
  } catch (error) {
    // A server that speaks PostgreSQL and keeps its log otherwise has no such function.
    if (error instanceof pg.DatabaseError && /^(?:42883|42501|0A000)$/.test(error.code ?? '')) return 0;
    throw error;
  }
}

// How an address that names several hosts is read; the form is that of libpq's manual, section on connection URIs.
import { expect, test } from 'vitest';
import { judgeFailure } from '../../src/server/database/databaseErrors.ts';
import { urlToHosts } from '../../src/server/database/postgresHosts.ts';

const read = (url: string) =>
  urlToHosts(url).map((host) => {
    const { searchParams: of, username, password, pathname } = new URL(host.url);
    return [host.name, of.get('host'), of.get('port'), `${username}:${password}`, pathname].join(' ');
  });

test('hosts and ports stand in the address or in its parameters', () => {
  expect(read('postgres://u:p@h1:5433,h2/db')).toEqual(['h1:5433 h1 5433 u:p /db', 'h2:5432 h2 5432 u:p /db']);
  expect(read('postgresql://u@[::1]:7,10.0.0.2:8/db')).toEqual(['::1:7 ::1 7 u: /db', '10.0.0.2:8 10.0.0.2 8 u: /db']);
  expect(read('postgres:///db?host=/run/a,/run/b&port=1,2')).toEqual([
    '/run/a:1 /run/a 1 : /db',
    '/run/b:2 /run/b 2 : /db',
  ]);
  expect(read('postgres://localhost/db?host=h1,h2&port=6000')).toEqual([
    'h1:6000 h1 6000 : /db',
    'h2:6000 h2 6000 : /db',
  ]);
  expect(read('postgres:///db')).toEqual(['localhost:5432 localhost 5432 : /db']);
});

test('other parameters go to each host, those for libpq alone to none', () => {
  const [first] = urlToHosts('postgres://h1,h2/db?sslmode=verify-full&target_session_attrs=read-write');
  expect(new URL(first?.url ?? '').search).toBe('?sslmode=verify-full&host=h1&port=5432');
});

test('lists that do not fit are told in a sentence without the password', () => {
  expect(() => urlToHosts('postgres://u:secret@x/db?host=a,b,c&port=1,2')).toThrow(/names 3 hosts and 2 ports/);
  expect(() => urlToHosts('mysql://x')).toThrow('postgres://');
});

test('what an error means is read off its code, through whatever it is wrapped in', () => {
  const coded = (code: string, more = {}) => Object.assign(new Error('on purpose'), { code, ...more });
  const cases: [unknown, string][] = [
    [coded('57P01'), 'gone'],
    [coded('25006'), 'gone'],
    [coded('08006'), 'gone'],
    [new Error('outside', { cause: coded('ECONNREFUSED') }), 'gone'],
    [new AggregateError([coded('ETIMEDOUT')]), 'gone'],
    [coded('ENOENT', { syscall: 'connect' }), 'gone'],
    [coded('ENOENT', { syscall: 'open' }), 'unexpected'],
    [new Error('Query read timeout'), 'gone'],
    [coded('57014'), 'busy'],
    [coded('SQLITE_BUSY_SNAPSHOT'), 'busy'],
    [coded('SQLITE_FULL'), 'full'],
    [coded('53100'), 'full'],
    [coded('SQLITE_CORRUPT_INDEX'), 'damaged'],
    [coded('SQLITE_NOTADB'), 'damaged'],
    [coded('XX001'), 'damaged'],
    [coded('SQLITE_IOERR_WRITE'), 'disk'],
    [coded('23505'), 'unexpected'],
    ['no error at all', 'unexpected'],
  ];
  for (const [error, means] of cases) expect([error, judgeFailure(error)]).toEqual([error, means]);
});

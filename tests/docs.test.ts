// DEVELOPERS.md and README.md name paths, scripts and kinds of events. All of them exist, and no kind is left out.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { EVENT_KINDS, readEvent } from '../src/core/record/events.ts';

const ROOT = join(import.meta.dirname, '..');
const read = (name: string) => readFileSync(join(ROOT, name), 'utf8');
const { scripts } = z.parse(z.object({ scripts: z.record(z.string(), z.string()) }), JSON.parse(read('package.json')));

/** Made by a command, not kept; a fresh clone rightly lacks them. */
const MADE = /^(?:\.\/)?(?:dist|dist-node|build|data|node_modules)(?:\/|$)|^tests\/bench\/latest\.json$/;
const TOP = /^(?:src|sw|public|tests|\.ci)(?:\/|$)|^[\w.-]+\.(?:md|json|ts|js|html)$/;

function namedPaths(text: string): string[] {
  const quoted = [...text.matchAll(/`([^`\n]+)`/g)].map((match) => match[1]!);
  const linked = [...text.matchAll(/\]\((?!https?:|#)([^)\s]+)\)/g)].map((match) => match[1]!);
  const fenced = [...text.matchAll(/^```[\s\S]*?^```/gm)].flatMap((match) => match[0].split(/\s+/));
  const words = [...quoted.flatMap((one) => one.split(/\s+/)), ...linked, ...fenced];
  return [...new Set(words.map((word) => word.replace(/[,;]$/, '')))].filter(
    (word) => TOP.test(word) && !MADE.test(word),
  );
}

function namedScripts(text: string): string[] {
  const run = [...text.matchAll(/\bnpm run (?:--silent )?([a-z][\w-]*)/g)].map((match) => match[1]!);
  const short = [...text.matchAll(/\bnpm (start|test)\b/g)].map((match) => match[1]!);
  return [...new Set([...run, ...short])];
}

describe.each(['DEVELOPERS.md', 'README.md'])('%s', (name) => {
  const text = read(name);

  it('names only paths that exist', () => {
    const paths = namedPaths(text);
    expect(paths.length).toBeGreaterThan(0);
    expect(paths.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });

  it('names only npm scripts that exist', () => {
    const named = namedScripts(text);
    expect(named).toEqual(expect.arrayContaining(['start', 'test']));
    expect(named.filter((script) => !Object.hasOwn(scripts, script))).toEqual([]);
  });
});

describe('the table of events in DEVELOPERS.md', () => {
  const section = read('DEVELOPERS.md').split('## Kinds of events')[1]?.split('\n## ')[0] ?? '';
  const rows = section
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .map((line) => line.split('|').slice(1, -1));
  const kinds = rows.map(([kind = '']) => kind.replaceAll('`', '').trim());

  it('has every kind once and no other', () => {
    expect([...kinds].sort()).toEqual([...EVENT_KINDS].sort());
  });

  it('names every field that an event of its kind cannot do without', () => {
    const head = { v: 1, id: 'e', station: 's', log: 'l', seq: 0, prev: null, author: '', at: 0, zone: 0 };
    rows.forEach(([, payload = ''], i) => {
      const fields = [...payload.matchAll(/`(\w+)`/g)].map((match) => match[1]!);
      const answer = readEvent(JSON.stringify({ ...head, kind: kinds[i], payload: {} }));
      expect(answer.type, kinds[i]).toBe('unreadable');
      // The reader names the first field it misses; that one must stand in the table.
      const missed = answer.type === 'unreadable' ? /^payload: (\w+)/.exec(answer.why)?.[1] : undefined;
      expect(fields, kinds[i]).toContain(missed);
      expect(rows[i]?.[2]?.trim(), kinds[i]).not.toBe('');
    });
  });
});

// WebKitGTK in a small launcher of its own (webview.py) on a screen without a monitor, and the death of its storage
// process, as phones end it after a suspend or when memory is short.
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { PHONE } from '../harness.ts';
import type { Driver } from './engine.ts';

/** The system's own, which alone has the system's packages; another Python may stand before it on the PATH. */
const PYTHON = existsSync('/usr/bin/python3') ? '/usr/bin/python3' : 'python3';

/** A screen of its own for each web view, which ends when the view has left it. */
function display(): Promise<string> {
  return new Promise((resolve, reject) => {
    const size = ['-screen', '0', '1280x1024x24'];
    const child = spawn('Xvfb', ['-displayfd', '3', ...size, '-nolisten', 'tcp', '-terminate'], {
      stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
    });
    child.on('error', reject);
    child.on('exit', (code) => reject(new Error(`Xvfb ended with ${code}.`)));
    child.stdio[3]?.on('data', (number) => resolve(`:${String(number).trim()}`));
  });
}

type Answer = { id: number; value: unknown; error: string | null };

export async function startWebKit(profile: string): Promise<Driver> {
  const launcher = join(import.meta.dirname, 'webview.py');
  mkdirSync(join(profile, 'downloads'), { recursive: true });
  const child = spawn(PYTHON, [launcher, profile, String(PHONE.width), String(PHONE.height)], {
    detached: true,
    stdio: ['pipe', 'pipe', 'pipe'],
    env: { ...process.env, DISPLAY: await display(), GDK_BACKEND: 'x11', NO_AT_BRIDGE: '1', LANG: 'C.UTF-8' },
  });
  let said = '';
  child.stderr.on('data', (chunk) => {
    said = (said + chunk).slice(-4000);
  });
  const waiting = new Map<number, (answer: Answer) => void>();
  createInterface({ input: child.stdout }).on('line', (line) => {
    if (!line.startsWith('{')) return;
    const answer: Answer = JSON.parse(line);
    waiting.get(answer.id)?.(answer);
    waiting.delete(answer.id);
  });
  child.on('close', () => {
    for (const [id, call] of waiting) call({ id, value: null, error: `WebKit is gone. ${said}` });
    waiting.clear();
  });
  // A pipe to what was just killed breaks; the answer above says so.
  child.stdin.on('error', () => undefined);

  let last = 0;
  const answered = (id: number) =>
    new Promise<Answer>((resolve) => {
      waiting.set(id, resolve);
    }).then(({ value, error }) => {
      if (error !== null) throw new Error(error);
      return value;
    });
  const command = (given: object): Promise<unknown> => {
    last += 1;
    const answer = answered(last);
    child.stdin.write(`${JSON.stringify({ id: last, ...given })}\n`);
    return answer;
  };

  await answered(0);
  return {
    process: child,
    goto: async (url) => void (await command({ goto: url })),
    run: (body, given) => command({ run: body, given }),
    shot: async (path) => void (await command({ shot: path })),
  };
}

/** Ends the storage process under the app; the web view goes on and starts another one. */
export function killStorage(view: ChildProcess): void {
  const found = readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .map(Number)
    .find((pid) => isStorageOf(view.pid ?? 0, pid));
  if (found === undefined) throw new Error('The web view has no storage process.');
  process.kill(found, 'SIGKILL');
}

function isStorageOf(view: number, pid: number): boolean {
  try {
    const parent = /^PPid:\s+(\d+)/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    return Number(parent) === view && /WebKitNetwork/.test(readFileSync(`/proc/${pid}/cmdline`, 'utf8'));
  } catch {
    // It ended while the list was read.
    return false;
  }
}

// Firefox over Marionette, its own remote protocol on a TCP port of this machine: no driver program, no package. It can
// reach nothing but this machine.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { join } from 'node:path';
import { PHONE } from '../harness.ts';
import type { Driver } from './engine.ts';

const FIREFOX = process.env.FIREFOX_PATH || 'firefox-esr';

const PREFERENCES: Record<string, string | number | boolean> = {
  'marionette.port': 0,
  'app.update.enabled': false,
  'browser.aboutwelcome.enabled': false,
  'browser.sessionstore.resume_from_crash': false,
  'browser.shell.checkDefaultBrowser': false,
  'browser.startup.homepage_override.mstone': 'ignore',
  'datareporting.policy.dataSubmissionEnabled': false,
  'network.captive-portal-service.enabled': false,
  'network.connectivity-service.enabled': false,
  // Nobody listens there: whatever is not on this machine cannot be reached.
  'network.proxy.type': 1,
  'network.proxy.http': '127.0.0.1',
  'network.proxy.http_port': 9,
  'network.proxy.ssl': '127.0.0.1',
  'network.proxy.ssl_port': 9,
  // A killed browser would ask at its next start whether to begin in safe mode.
  'toolkit.startup.max_resumed_crashes': -1,
};

export async function startFirefox(profile: string): Promise<Driver> {
  const port = join(profile, 'MarionetteActivePort');
  rmSync(port, { force: true });
  const downloads = join(profile, 'downloads');
  mkdirSync(downloads, { recursive: true });
  const all = { ...PREFERENCES, 'browser.download.folderList': 2, 'browser.download.dir': downloads };
  const lines = Object.entries(all).map(
    ([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});`,
  );
  writeFileSync(join(profile, 'user.js'), lines.join('\n'));
  const size = ['--width', String(PHONE.width), '--height', String(PHONE.height)];
  const child = spawn(FIREFOX, ['--headless', '--marionette', '--no-remote', '--profile', profile, ...size], {
    detached: true,
    stdio: 'ignore',
  });
  let failed: Error | null = null;
  child.on('error', (error) => {
    failed = error;
  });
  const end = Date.now() + 60_000;
  while (!existsSync(port) || readFileSync(port, 'utf8') === '') {
    if (failed) throw failed;
    if (child.exitCode !== null || Date.now() > end) throw new Error('Firefox did not start.');
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  const command = await speak(Number(readFileSync(port, 'utf8')));
  const timeouts = { pageLoad: 60_000, script: 60_000 };
  await command('WebDriver:NewSession', { capabilities: { alwaysMatch: { timeouts } } });
  await command('WebDriver:SetWindowRect', { ...PHONE });
  return {
    process: child,
    goto: async (url) => void (await command('WebDriver:Navigate', { url })),
    async run(body, given) {
      // The page's own world and its policy are left alone: what is run lives in a sandbox beside it.
      const script = `const given = arguments[0], done = arguments[1];
        (async () => { ${body} })().then(done, (error) => done(JSON.stringify({ thrown: String(error) })));`;
      const { value } = await command('WebDriver:ExecuteAsyncScript', { script, args: [given], sandbox: 'tests' });
      const answer: unknown = JSON.parse(String(value));
      if (typeof answer === 'object' && answer !== null && 'thrown' in answer) throw new Error(String(answer.thrown));
      return answer;
    },
    async shot(path) {
      const { value } = await command('WebDriver:TakeScreenshot', { full: false });
      writeFileSync(path, Buffer.from(String(value), 'base64'));
    },
  };
}

type Command = (name: string, given: object) => Promise<{ value?: unknown }>;

/** Messages are `length:json`; a command is `[0, id, name, parameters]`, its answer `[1, id, error, result]`. */
async function speak(port: number): Promise<Command> {
  const socket: Socket = connect(port, '127.0.0.1');
  const waiting = new Map<number, (answer: [error: { message: string } | null, result: { value?: unknown }]) => void>();
  let held = Buffer.alloc(0);
  socket.on('data', (chunk) => {
    held = Buffer.concat([held, chunk]);
    for (let colon = held.indexOf(58); colon > 0; colon = held.indexOf(58)) {
      const length = Number(held.subarray(0, colon).toString());
      if (held.length < colon + 1 + length) return;
      const message: unknown = JSON.parse(held.subarray(colon + 1, colon + 1 + length).toString());
      held = held.subarray(colon + 1 + length);
      if (!Array.isArray(message)) continue;
      const [, id, error, result] = message;
      waiting.get(id)?.([error, result]);
      waiting.delete(id);
    }
  });
  const lost = () => {
    for (const call of waiting.values()) call([{ message: 'Firefox is gone.' }, {}]);
    waiting.clear();
  };
  socket.on('error', lost);
  socket.on('close', lost);
  await once(socket, 'connect');
  let last = 0;
  return async (name, given) => {
    last += 1;
    const id = last;
    const text = JSON.stringify([0, id, name, given]);
    const answered = new Promise<[{ message: string } | null, { value?: unknown }]>((resolve) => {
      waiting.set(id, resolve);
    });
    socket.write(`${Buffer.byteLength(text)}:${text}`);
    const [error, result] = await answered;
    if (error) throw new Error(`${name}: ${error.message}`);
    return result;
  };
}

// The server as it is shipped: bundled once, run as a process of its own with its own data folder.
import { type ChildProcess, spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { rolldown } from 'rolldown';

/** In the ignored build folder, so that the packages left outside the bundle are found. */
export async function bundleServer(name: string): Promise<string> {
  const file = resolve('build', 'test-server', name, 'server.js');
  const bundle = await rolldown({
    input: resolve('src/server/main.ts'),
    platform: 'node',
    external: ['better-sqlite3', 'pg'],
    logLevel: 'silent',
  });
  await bundle.write({ file, format: 'esm' });
  await bundle.close();
  return file;
}

export type ServerProcess = {
  child: ChildProcess;
  output: () => string;
  port: number;
  code: string;
  kill: (signal: NodeJS.Signals) => Promise<number | null>;
};

type RunEnd = { output: string; status: number | null };

function start(file: string, args: string[], env: Record<string, string>) {
  const child = spawn(process.execPath, [file, ...args], {
    env: { PATH: process.env.PATH ?? '', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let text = '';
  const gone = new Promise<number | null>((done) => child.once('close', (status) => done(status)));
  const listen = (heard: (text: string) => void) => {
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8').on('data', (part: string) => {
        text += part;
        heard(text);
      });
    }
  };
  return { child, gone, listen, output: () => text };
}

/** Runs to its end. */
export async function runServer(file: string, args: string[], env: Record<string, string>): Promise<RunEnd> {
  const { gone, listen, output } = start(file, args, env);
  listen(() => undefined);
  return { status: await gone, output: output() };
}

/**
 * Resolves when address and pairing code are printed, or what `ready` says instead.
 * @param heard Told of everything printed so far, whenever there is more.
 */
export async function startServer(
  file: string,
  env: Record<string, string>,
  { ready = 'It works once', heard = () => undefined }: { ready?: string; heard?: (text: string) => void } = {},
): Promise<ServerProcess> {
  const { child, gone, listen, output } = start(file, [], env);
  await new Promise<void>((started, failed) => {
    listen((text) => {
      heard(text);
      if (text.includes(ready)) started();
    });
    void gone.then((status) => failed(new Error(`The server ended with ${status}:\n${output()}`)));
  });
  const kill = async (signal: NodeJS.Signals) => {
    child.kill(signal);
    return await gone;
  };
  return { child, output, kill, port: Number(/:(\d+)$/m.exec(output())?.[1]), code: printedCode(output()) };
}

export function printedCode(output: string): string {
  return /^ {4}([0-9A-Z]{5} [0-9A-Z]{5})$/m.exec(output)?.[1] ?? '';
}

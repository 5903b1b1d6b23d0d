// Another engine as a test sees it: go somewhere, run a function there, press what a person presses, take a picture, die.
// What is there to be driven is npm test's business; here a missing engine fails.
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../harness.ts';
import { startFirefox } from './firefox.ts';
import { startWebKit } from './webkit.ts';

export type EngineName = 'firefox' | 'webkit';

/** What each driver can do; everything else is made of it. */
export interface Driver {
  process: ChildProcess;
  goto(url: string): Promise<void>;
  /** Runs the body of an async function, which finds its arguments as JSON in `given` and answers in JSON. */
  run(body: string, given: string): Promise<unknown>;
  shot(path: string): Promise<void>;
}

/** Milliseconds; a busy machine is slow, not wrong. */
const PATIENCE = 120_000;
const BETWEEN = 60;

export type Engine = Awaited<ReturnType<typeof openEngine>>;

/** @param profile An empty folder, or one that this engine used before. */
export async function openEngine(name: EngineName, profile: string) {
  const driver = name === 'firefox' ? await startFirefox(profile) : await startWebKit(profile);

  async function run<A extends unknown[], T>(call: (...given: A) => T, ...given: A): Promise<Awaited<T>> {
    const body = `const answer = await (${call})(...JSON.parse(given)); return JSON.stringify(answer ?? null);`;
    return (await driver.run(body, JSON.stringify(given))) as Awaited<T>;
  }

  /** Asks until the page answers with something; says what it waited for, and what stands there, when it never does. */
  async function until<A extends unknown[], T>(what: string, call: (...given: A) => T, ...given: A) {
    const end = Date.now() + PATIENCE;
    for (;;) {
      const answer = await run(call, ...given);
      if (answer) return answer as NonNullable<Awaited<T>>;
      if (Date.now() > end) {
        await picture(`failed-${name}`);
        throw new Error(`${name} waited for ${what}. The page says:\n${await run(() => document.body.innerText)}`);
      }
      await new Promise((resolve) => setTimeout(resolve, BETWEEN));
    }
  }

  const text = (wanted: string) => until(`"${wanted}"`, (sought) => document.body.innerText.includes(sought), wanted);

  /** Presses the first button of that name once it can be pressed. */
  const press = (wanted: string) => until(`the button "${wanted}"`, pressIn, wanted);

  /** Presses what goes on from here: the dark cell of what lies on top. */
  const pressPrimary = () =>
    until('the cell that goes on', () => {
      const top = [...document.querySelectorAll('dialog')].at(-1) ?? document;
      const cell = top.querySelector<HTMLButtonElement>('.cell-primary:not(:disabled)');
      cell?.click();
      return cell !== null;
    });

  /** For a control that may refuse the first tap, as one does right after the screen has changed under the thumb. */
  async function pressUntil(wanted: string, sought: string): Promise<void> {
    await until(
      `"${sought}" after "${wanted}"`,
      (button, expected) => {
        if (document.body.innerText.includes(expected)) return true;
        [...document.querySelectorAll('button')].find((one) => one.textContent?.includes(button))?.click();
        return false;
      },
      wanted,
      sought,
    );
  }

  async function picture(called: string): Promise<void> {
    const folder = join(ROOT, 'tests', 'browser', 'shots');
    mkdirSync(folder, { recursive: true });
    await driver.shot(join(folder, `${called}.png`));
  }

  /** Ends the engine and all its processes at once, as a phone does that needs the memory. */
  async function kill(): Promise<void> {
    const { pid, exitCode, signalCode } = driver.process;
    if (!pid || exitCode !== null || signalCode !== null) return;
    const gone = once(driver.process, 'exit');
    process.kill(-pid, 'SIGKILL');
    await gone;
  }

  return {
    name,
    process: driver.process,
    goto: driver.goto,
    run,
    until,
    text,
    press,
    pressPrimary,
    pressUntil,
    picture,
    kill,
  };
}

function pressIn(wanted: string): boolean {
  const named = (one: Element) => (one.getAttribute('aria-label') ?? one.textContent ?? '').replace(/\s+/g, ' ');
  const found = [...document.querySelectorAll<HTMLButtonElement>('button, a[href], summary')].find(
    (one) => named(one).includes(wanted) && !one.disabled && one.offsetParent !== null,
  );
  found?.click();
  return found !== undefined;
}

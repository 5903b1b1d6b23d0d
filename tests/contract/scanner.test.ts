// Runs the Scanner contract on the adapters that need no browser.
import { describe, expect, test } from 'vitest';
import { createDouble } from '../../src/scan/double.ts';
import { createTyped } from '../../src/scan/typed.ts';
import { createWedge, type KeyLike, type KeyTarget } from '../../src/scan/wedge.ts';
import { type Rig, scannerContract } from './scanner.ts';

type MakeRig = () => Rig;

function clockAndBugs() {
  let now = 1_000;
  let bugs = 0;
  return {
    now: () => now,
    pass: (ms: number) => {
      now += ms;
    },
    onBug: () => {
      bugs += 1;
    },
    bugs: () => bugs,
  };
}

const nothing = async () => undefined;

const rigs: Record<string, MakeRig> = {
  'test double': () => {
    const { now, pass, onBug, bugs } = clockAndBugs();
    const scanner = createDouble({ now, onBug });
    return {
      scanner,
      bugs,
      end: nothing,
      moment: nothing,
      async show(text) {
        pass(100);
        scanner.show(text);
      },
      async away() {
        for (let i = 0; i < 12; i += 1) {
          pass(100);
          scanner.show();
        }
      },
    };
  },
  'typed entry': () => {
    const { now, pass, onBug, bugs } = clockAndBugs();
    const scanner = createTyped({ now, onBug, suggest: () => [] as string[] });
    return {
      scanner,
      bugs,
      end: nothing,
      moment: nothing,
      async show(text) {
        pass(100);
        scanner.enter(text);
      },
      async away() {
        pass(1_000);
      },
    };
  },
  'keyboard wedge': () => {
    const { now, pass, onBug, bugs } = clockAndBugs();
    const heard = new Set<(event: KeyLike) => void>();
    const target: KeyTarget = {
      addEventListener: (_type, fn) => void heard.add(fn),
      removeEventListener: (_type, fn) => void heard.delete(fn),
    };
    const scanner = createWedge({ target, now, onBug });
    return {
      scanner,
      bugs,
      end: nothing,
      moment: nothing,
      async show(text) {
        pass(200);
        for (const key of [...text, 'Enter']) {
          pass(5);
          for (const fn of heard) {
            fn({ key, timeStamp: now(), preventDefault: () => undefined, stopPropagation: () => undefined });
          }
        }
      },
      async away() {
        pass(1_000);
      },
    };
  },
};

describe.each(Object.entries(rigs))('the scanner contract on the %s', (_name, makeRig) => {
  test.each(scannerContract.map((step) => [step.name, step] as const))('%s', async (_step, step) => {
    const rig = makeRig();
    let checks = 0;
    await step.run(rig, (claim, got, want) => {
      checks += 1;
      expect(got, claim).toEqual(want);
    });
    expect(checks).toBeGreaterThan(0);
    await rig.end();
  });
});

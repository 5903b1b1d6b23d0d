// The contract of the Scanner port, as plain steps, so that it runs on every adapter: in node with the test runner,
// and inside a real browser page, where there is none. Must never know an adapter.
import type { Reading, Scanner } from '../../src/scan/scanner.ts';

export type Rig = {
  scanner: Scanner;
  /** Brings a label into view, or types it, or triggers it, and waits until a scanner had time to see it. */
  show(text: string): Promise<void>;
  /** Takes it out of view for longer than the time after which it may be read again. */
  away(): Promise<void>;
  /** A moment in which something wrong would have arrived. */
  moment(): Promise<void>;
  /** Bugs of listeners that came to light. */
  bugs(): number;
  end(): Promise<void>;
};

type Check = (claim: string, got: unknown, want: unknown) => void;

type ContractStep = { name: string; run(rig: Rig, check: Check): Promise<void> };

function collect(scanner: Scanner): string[] {
  const texts: string[] = [];
  scanner.onReading((reading: Reading) => texts.push(reading.text));
  return texts;
}

export const scannerContract: ContractStep[] = [
  {
    name: 'starts off, starts, and stops again',
    async run({ scanner }, check) {
      check('before', scanner.state.get().type, 'off');
      check('start', await scanner.start(), { type: 'started' });
      check('running', scanner.state.get().type, 'scanning');
      await scanner.stop();
      check('after', scanner.state.get().type, 'off');
    },
  },
  {
    name: 'start and stop may be called again without harm',
    async run({ scanner, show }, check) {
      const texts = collect(scanner);
      await scanner.stop();
      const both = await Promise.all([scanner.start(), scanner.start()]);
      check('both', both, [{ type: 'started' }, { type: 'started' }]);
      check('a third', await scanner.start(), { type: 'started' });
      await show('1003');
      check('heard once', texts, ['1003']);
      await Promise.all([scanner.stop(), scanner.stop()]);
      check('off', scanner.state.get().type, 'off');
    },
  },
  {
    name: 'a stop while starting wins',
    async run({ scanner, show }, check) {
      const texts = collect(scanner);
      const start = scanner.start();
      const stop = scanner.stop();
      check('off at once', scanner.state.get().type, 'off');
      check('start', await start, { type: 'stopped' });
      await stop;
      await show('1003');
      check('nothing heard', texts, []);
      check('can start afterwards', await scanner.start(), { type: 'started' });
      await show('1004');
      check('heard', texts.at(-1), '1004');
    },
  },
  {
    name: 'says each change of state once',
    async run({ scanner }, check) {
      const states: string[] = [];
      const quiet = scanner.state.subscribe((state) => states.push(state.type));
      await scanner.start();
      scanner.pause();
      scanner.pause();
      scanner.resume();
      await scanner.stop();
      quiet();
      await scanner.start();
      check('states', states, ['starting', 'scanning', 'paused', 'scanning', 'off']);
    },
  },
  {
    name: 'delivers nothing while paused, and delivers again after',
    async run({ scanner, show, away }, check) {
      const texts = collect(scanner);
      await scanner.start();
      scanner.pause();
      await show('1003');
      check('paused', texts, []);
      await away();
      scanner.resume();
      await show('1004');
      check('resumed', texts, ['1004']);
    },
  },
  {
    name: 'a pause asked for while starting holds',
    async run({ scanner, show }, check) {
      const texts = collect(scanner);
      const start = scanner.start();
      scanner.pause();
      await start;
      check('paused', scanner.state.get().type, 'paused');
      await show('1003');
      check('nothing heard', texts, []);
    },
  },
  {
    name: 'reports a label once while it stays in view',
    async run({ scanner, show }, check) {
      const texts = collect(scanner);
      await scanner.start();
      await show('1003');
      await show('1003');
      await show('1003');
      check('once', texts, ['1003']);
    },
  },
  {
    name: 'reports the same label again after it was out of view',
    async run({ scanner, show, away }, check) {
      const texts = collect(scanner);
      await scanner.start();
      await show('1003');
      await away();
      await show('1003');
      check('twice', texts, ['1003', '1003']);
    },
  },
  {
    name: 'reports what is in view again when a person asks',
    async run({ scanner, show }, check) {
      const texts = collect(scanner);
      await scanner.start();
      await show('1003');
      scanner.again();
      await show('1003');
      check('twice', texts, ['1003', '1003']);
    },
  },
  {
    name: 'a throwing listener does not keep a reading from the others',
    async run({ scanner, show, bugs }, check) {
      scanner.onReading(() => {
        throw new Error('a listener with a bug');
      });
      const texts = collect(scanner);
      await scanner.start();
      await show('1003');
      check('heard', texts, ['1003']);
      check('the bug surfaced', bugs(), 1);
      check('still scanning', scanner.state.get().type, 'scanning');
    },
  },
  {
    name: 'a listener that left hears nothing more',
    async run({ scanner, show }, check) {
      const texts: string[] = [];
      const leave = scanner.onReading((reading) => texts.push(reading.text));
      await scanner.start();
      await show('1003');
      leave();
      await show('1004');
      check('only the first', texts, ['1003']);
    },
  },
  {
    name: 'delivers nothing after stop, not even what was in flight',
    async run({ scanner, show, moment }, check) {
      const texts = collect(scanner);
      await scanner.start();
      await show('1003');
      const shown = show('1004');
      const before = [...texts];
      const stopped = scanner.stop();
      const atStop = [...texts];
      await shown;
      await stopped;
      await moment();
      check('nothing came after stop was called', texts, atStop);
      check('the first one was heard', before[0], '1003');
    },
  },
];

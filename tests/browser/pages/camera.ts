// The page under the camera tests: one camera scanner at a time, the real decode worker, and the contract.
// Must never hold an expectation of its own beyond recording what the contract's checks said.
import { type CameraScanner, createCamera } from '../../../src/scan/camera.ts';
import type { Decoder } from '../../../src/scan/decoder.ts';
import type { Reading } from '../../../src/scan/scanner.ts';
import { startDecodeWorker } from '../../../src/workers/decodeClient.ts';
import { type Rig, scannerContract } from '../../contract/scanner.ts';

type Setup = { decoder?: 'worker' | 'none' | 'broken' | 'silent'; camera?: { id: string; label: string } };

const place = document.getElementById('place') as HTMLElement;
const worker = startDecodeWorker();
let answers = 0;
let bugs = 0;
const frames: { width: number; height: number; effort: string }[] = [];

const counted: Decoder = {
  async decode(frame, effort) {
    frames.push({ width: frame.width, height: frame.height, effort });
    const answer = await worker.decode(frame, effort);
    answers += 1;
    return answer;
  },
};
const broken: Decoder = {
  async decode(frame) {
    frame.close();
    return { type: 'decoder-failed', message: 'broken for the test' };
  },
};

const silent: Decoder = {
  decode(frame) {
    frame.close();
    return new Promise(() => undefined);
  },
};

function make(setup: Setup = {}): CameraScanner {
  const decoder = { worker: counted, broken, silent, none: null }[setup.decoder ?? 'worker'];
  bugs = 0;
  return createCamera({
    place,
    decoder,
    now: () => Date.now(),
    camera: setup.camera ?? null,
    onBug: () => {
      bugs += 1;
    },
  });
}

/** Three looks come after it, or a while without any when nothing looks. */
async function seen(scanner: CameraScanner): Promise<void> {
  const from = answers;
  for (let idle = 0; answers < from + 4; ) {
    await window.__ticks(1);
    if (scanner.state.get().type !== 'scanning') idle += 1;
    if (idle >= 12) return;
  }
}

function rigOf(scanner: CameraScanner): Rig {
  return {
    scanner,
    bugs: () => bugs,
    async show(text) {
      window.__showLabel(text);
      await seen(scanner);
    },
    async away() {
      window.__showLabel(null);
      await window.__ticks(30);
    },
    moment: () => window.__ticks(12),
    end: () => scanner.stop(),
  };
}

async function runStep(index: number): Promise<{ claim: string; got: unknown; want: unknown }[]> {
  const step = scannerContract[index];
  const rig = rigOf(make());
  const checks: { claim: string; got: unknown; want: unknown }[] = [];
  window.__showLabel(null);
  try {
    await step.run(rig, (claim, got, want) => checks.push(structuredClone({ claim, got, want })));
  } finally {
    await rig.end();
  }
  return checks;
}

let scanner = make();
let readings: Reading[] = [];
const states: string[] = [];

const bench = {
  runStep,
  frames,
  async renew(setup: Setup = {}) {
    await scanner.stop();
    scanner = make(setup);
    readings = [];
    states.length = 0;
    frames.length = 0;
    scanner.onReading((reading) => readings.push(reading));
    scanner.state.subscribe(({ type }) => states.push(type));
  },
  scanner: () => scanner,
  readings: () => readings,
  states: () => states,
};

declare global {
  interface Window {
    bench: typeof bench;
  }
}
window.bench = bench;

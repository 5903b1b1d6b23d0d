// Every expected failure is told in whole sentences with a next step; the words of design and house style are held here.
import { expect, test } from 'vitest';
import type { PairFailure, SyncState, WaitingWhy } from '../../src/sync/ports.ts';
import {
  type Message,
  mediaFailureToMessage,
  pairFailureToMessage,
  saveFailureToMessage,
  scanFailureToMessage,
  syncToMessage,
  voiceFailureToMessage,
} from '../../src/ui/messages.ts';

const at = (time: number) => `T${time}`;

const WAITING: WaitingWhy[] = [
  'no-answer',
  'timeout',
  'not-our-server',
  'server-failed',
  'server-busy',
  'answer-unreadable',
  'phone-failed',
];
const PAIR: PairFailure[] = [
  'not-a-code',
  'code-unknown',
  'code-used',
  'code-expired',
  'station-needed',
  'station-differs',
  'too-many',
  'phone-too-old',
  'server-too-old',
  ...WAITING,
];

const states: SyncState[] = [
  { type: 'unpaired' },
  { type: 'idle', lastAt: null },
  { type: 'idle', lastAt: 5 },
  { type: 'sending', progress: { phase: 'events', done: 3, left: 4 } },
  ...WAITING.map((why): SyncState => ({ type: 'waiting', why, retryAt: 9, tries: 2 })),
  { type: 'stopped', why: 'needs-pairing' },
  { type: 'stopped', why: 'phone-too-old' },
  { type: 'stopped', why: 'server-too-old' },
];

const all: [string, Message][] = [
  ...states.map((state): [string, Message] => [JSON.stringify(state), syncToMessage(state, at)]),
  ...PAIR.map((why): [string, Message] => [`pair ${why}`, pairFailureToMessage(why)]),
  ...(['no-permission', 'no-camera', 'camera-in-use', 'insecure-context', 'stalled'] as const).map(
    (type): [string, Message] => [`scan ${type}`, scanFailureToMessage({ type })],
  ),
  ['scan decoder-failed', scanFailureToMessage({ type: 'decoder-failed', message: 'no wasm' })],
  ...(['heic', 'not-a-picture', 'no-memory', 'no-room', 'full', 'store-lost', 'too-large'] as const).map(
    (why): [string, Message] => [`media ${why}`, mediaFailureToMessage(why)],
  ),
  ...(
    [
      'no-recorder',
      'no-permission',
      'no-microphone',
      'microphone-in-use',
      'insecure-context',
      'nothing-recorded',
    ] as const
  ).map((why): [string, Message] => [`voice ${why}`, voiceFailureToMessage(why)]),
  ...['full', 'closed', 'anything'].map((why): [string, Message] => [`save ${why}`, saveFailureToMessage(why)]),
];

test.each(all)('%s is told in whole sentences, with a next step', (_, { what, todo }) => {
  expect(what).toMatch(/^[A-Z].+[.:]?$/);
  expect(what.endsWith('.') || /\d left\.$/.test(what)).toBe(true);
  expect(todo).toMatch(/^[A-Z].+\.$/);
});

test.each(all)('%s never says that something is safe and blames nobody', (_, { what, todo }) => {
  expect(`${what} ${todo}`).not.toMatch(/\bsafe(ly)?\b|\byou (failed|forgot)\b|\berror\b|\binvalid\b/i);
});

test('Different reasons to wait are told differently', () => {
  const told = WAITING.map((why) => syncToMessage({ type: 'waiting', why, retryAt: 0, tries: 1 }, at).what);
  expect(new Set(told).size).toBe(WAITING.length);
});

test('Different reasons not to pair are told differently', () => {
  expect(new Set(PAIR.map((why) => pairFailureToMessage(why).what)).size).toBe(PAIR.length);
});

test('When work is held up, the message says that it stays on the phone', () => {
  for (const why of ['needs-pairing', 'phone-too-old', 'server-too-old'] as const) {
    expect(syncToMessage({ type: 'stopped', why }, at).todo).toMatch(/stays here/);
  }
});

test('The time of the last exchange is in the words', () => {
  expect(syncToMessage({ type: 'idle', lastAt: 5 }, at).what).toContain('T5');
});

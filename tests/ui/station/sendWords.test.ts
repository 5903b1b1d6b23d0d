// What is said of sending: what waits, since when and why, each kind for its own reason.
import { describe, expect, test } from 'vitest';
import type { LaneState, SyncState } from '../../../src/sync/ports.ts';
import type { HeldItem, Sending, Unsent } from '../../../src/ui/services.ts';
import { clockLine, faultLines, heldToWords, receiveLine, waitLines } from '../../../src/ui/station/sendWords.ts';

const at = (time: number) => `T${time}`;
const none: Unsent = { statements: 0, photos: 0, notes: 0, other: 0, bytes: 0, refused: 0 };
const idle: LaneState = { type: 'idle', lastAt: null };
const waiting: LaneState = { type: 'waiting', why: 'no-answer', retryAt: 9, tries: 2 };
const state: SyncState = { type: 'idle', lastAt: 1 };

function sendingWith(over: Partial<Sending>, details: Partial<Sending['details']> = {}): Sending {
  return {
    details: {
      lanes: { entries: idle, up: idle, down: idle },
      live: null,
      clockAhead: null,
      photosHeld: false,
      ...details,
    },
    since: { entries: 3, documents: 4 },
    held: [],
    untaken: [],
    missed: [],
    misnamed: [],
    photosWait: false,
    network: 'unknown',
    ...over,
  };
}
const lines = (unsent: Partial<Unsent>, sending: Sending, of: SyncState = state) =>
  waitLines({ ...none, ...unsent }, of, sending, at);

describe('what waits', () => {
  test('nothing', () => {
    expect(lines({}, sendingWith({}))).toEqual(['Nothing waits to be sent.']);
  });

  test('since when, and why', () => {
    const away = sendingWith({}, { lanes: { entries: waiting, up: idle, down: idle } });
    expect(lines({ statements: 12, bytes: 900 }, away)).toEqual([
      '12 checks not sent since T3: the server does not answer.',
      '900 bytes, kept on this phone.',
    ]);
  });

  test('photos by their own reason beside entries that go', () => {
    const held = sendingWith({}, { photosHeld: true });
    expect(lines({ statements: 1, photos: 3, bytes: 5 }, held).slice(0, 2)).toEqual([
      '1 check not sent since T3.',
      '3 photos wait for a good network.',
    ]);
    const away = sendingWith({}, { lanes: { entries: idle, up: waiting, down: idle } });
    expect(lines({ photos: 1, bytes: 5 }, away)[0]).toBe('1 photo not sent since T4: the server does not answer.');
  });

  test('without a server, and with one that asks to be paired again', () => {
    expect(lines({ notes: 2, bytes: 5 }, sendingWith({}), { type: 'unpaired' })[0]).toBe(
      '2 notes not sent since T3: no server is paired.',
    );
    expect(lines({ other: 1, bytes: 5 }, sendingWith({}), { type: 'stopped', why: 'needs-pairing' })[0]).toBe(
      '1 other entry not sent since T3: the server wants this phone paired again.',
    );
  });

  test('what is held back counts as not sent', () => {
    expect(lines({ refused: 2 }, sendingWith({}))).toEqual(['2 items held back; the reasons are below.']);
  });
});

test('what is held back names what it is, why, and when it is tried again', () => {
  const item: HeldItem = {
    key: 'event:a',
    what: 'photo',
    at: 5,
    refused: true,
    why: 'way',
    sentence: 'Something on the way to the server refuses anything that large.',
    dueAt: 7,
  };
  expect(heldToWords(item, at)).toEqual({
    title: 'Photo of T5',
    second: 'Something on the way to the server refuses anything that large. The app tries again T7.',
  });
  const other = heldToWords({ ...item, sentence: null, why: 'same-id-other-text', dueAt: null }, at);
  expect(other.second).toBe('The server has a different entry with the same id; both are kept.');
});

test('what came with faults is named, one sentence each', () => {
  const sending = sendingWith({
    untaken: [{ hash: 'abcdef0123456789', why: 'Invalid time value', dueAt: 7 }],
    missed: [{ document: '0123456789abcdef', why: 'differs', dueAt: 8 }],
    misnamed: ['../health'],
  });
  const said = faultLines(sending, at);
  expect(said).toHaveLength(3);
  expect(said[0]).toContain('Invalid time value');
  expect(said[0]).toContain('T7');
  expect(said[1]).toMatch(/damaged.*0123456789\. The app asks again T8/);
  expect(said[2]).toContain('“../health”');
});

test('the clock is told beyond five minutes, in minutes, hours and days', () => {
  expect([null, 0, 300_000, -300_000].map(clockLine)).toEqual([null, null, null, null]);
  expect(clockLine(720_000)).toBe('This phone’s clock is 12 minutes ahead of the server’s.');
  expect(clockLine(-3 * 3_600_000)).toBe('This phone’s clock is 3 hours behind the server’s.');
  expect(clockLine(90 * 86_400_000)).toBe('This phone’s clock is 90 days ahead of the server’s.');
});

test('how others’ entries come is told once it is known', () => {
  expect(receiveLine(sendingWith({}))).toBeNull();
  expect(receiveLine(sendingWith({}, { live: true }))).toMatch(/at once/);
  expect(receiveLine(sendingWith({}, { live: false }))).toMatch(/asks every few seconds/);
});

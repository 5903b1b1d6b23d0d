// What a person says about causes and differences: no judgement without its reason, none without a name, none longer
// than the form allows. Invented data.
import { describe, expect, it } from 'vitest';
import { MAX_KEYS, MAX_NAME, MAX_PLACES, MAX_REASON, MAX_WORDS } from '../../../src/core/record/eventLimits.ts';
import { readEvent } from '../../../src/core/record/events.ts';
import { fingerprint, idToFingerprint } from '../../../src/core/rules/fingerprints.ts';

const head = { v: 1, id: 'e', station: 's', log: 'l', seq: 0, prev: null, author: '', at: 0, zone: 0 };
const read = (kind: string, payload: unknown) => readEvent(JSON.stringify({ ...head, kind, payload })).type;

const evidence = { facts: ['e40c292c'], known: [], places: [], looks: [], certainty: 'possible' };
const judged = { cause: 'crossed SW1/P03 1003', about: 'Two cables crossed', by: 'M. Okafor', evidence };
const target = { type: 'discrepancy', id: 'wrong-jack SW1/P03 1003' };
const decided = { target, about: '1003 is here', facts: ['e40c292c'], usual: 'fix-floor', by: 'M. Okafor' };

describe('a judgement on a cause', () => {
  it.each([
    [{ judgement: 'accepted' }, 'event'],
    [{ judgement: 'accepted', as: 'crossed', reason: 'I moved them myself' }, 'event'],
    [{ judgement: 'rejected' }, 'unreadable'],
    [{ judgement: 'rejected', reason: '  ' }, 'unreadable'],
    [{ judgement: 'rejected', reason: 'two cables were renumbered' }, 'event'],
    [{ judgement: 'other', reason: 'the strip is on the wrong side' }, 'unreadable'],
    [{ judgement: 'other', words: 'strip moved', reason: 'the strip is on the wrong side' }, 'event'],
    [{ judgement: 'accepted', by: ' ' }, 'unreadable'],
    [{ judgement: 'accepted', by: 'x'.repeat(MAX_NAME + 1) }, 'unreadable'],
    [{ judgement: 'rejected', reason: 'x'.repeat(MAX_REASON + 1) }, 'unreadable'],
    [{ judgement: 'accepted', evidence: { ...evidence, facts: Array(MAX_KEYS + 1).fill('e40c292c') } }, 'unreadable'],
  ])('%j is read as %s', (more, type) => {
    expect(read('cause-judged', { ...judged, ...more })).toBe(type);
  });

  it('fits an event even at its longest', () => {
    const keys = Array.from({ length: MAX_KEYS }, () => 'ffffffff');
    const longest = {
      ...judged,
      cause: 'x'.repeat(500),
      about: 'ü'.repeat(MAX_REASON),
      judgement: 'other',
      words: 'ü'.repeat(MAX_WORDS),
      reason: 'ü'.repeat(MAX_REASON),
      by: 'x'.repeat(MAX_NAME),
      evidence: { ...evidence, facts: keys, known: keys, looks: keys, places: Array(MAX_PLACES).fill('x'.repeat(60)) },
    };
    expect(read('cause-judged', longest)).toBe('event');
  });
});

describe('a decision', () => {
  it.each([
    [{ choice: 'fix-floor' }, 'event'],
    [{ choice: 'amend-record' }, 'unreadable'],
    [{ choice: 'amend-record', reason: 'the desk has moved' }, 'event'],
    [{ choice: 'amend-record', usual: 'amend-record' }, 'event'],
    [{ choice: 'fix-floor', usual: null }, 'unreadable'],
    [{ choice: 'leave' }, 'unreadable'],
    [{ choice: 'leave', reason: 'until the new desk comes' }, 'event'],
    [{ choice: 'ignore', reason: 'no such choice' }, 'unreadable'],
    [{ choice: 'fix-floor', by: '' }, 'unreadable'],
  ])('%j is read as %s', (more, type) => {
    expect(read('decided', { ...decided, ...more })).toBe(type);
  });
});

describe('keys of facts', () => {
  // draft-eastlake-fnv, test vectors of FNV-1a with 32 bits.
  it.each([
    ['', '811c9dc5'],
    ['a', 'e40c292c'],
    ['foobar', 'bf9cf968'],
  ])('%s is %s', (text, key) => {
    expect(fingerprint(text)).toBe(key);
  });

  it('keeps two long names apart and short ones as they are', () => {
    const long = (last: string) => `half-renamed ${'SW1/P01+'.repeat(200)}${last}`;
    expect(idToFingerprint(long('1'))).not.toBe(idToFingerprint(long('2')));
    expect(idToFingerprint(long('1')).length).toBeLessThan(500);
    expect(idToFingerprint('crossed SW1/P03 1003')).toBe('crossed SW1/P03 1003');
  });
});

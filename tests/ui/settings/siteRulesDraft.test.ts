// What is typed becomes a rule or a sentence that says what is wrong with it. Addresses: RFC 5737; numbers invented.
import { expect, test } from 'vitest';
import { MAX_AIR_WORDS, MAX_PAIRS, MAX_RULES, USUAL_RULES } from '../../../src/core/schedule/desk/siteRules.ts';
import { USUAL_PAIRS } from '../../../src/core/trade/partsPairs.ts';
import {
  addAirWord,
  addException,
  addMeeting,
  addSignalWords,
  addSubnet,
  channelExample,
  isTyped,
  NOTHING_TYPED,
  overlapsToWords,
  pairsToText,
  sharedNumbers,
  textToFactor,
  textToPairs,
  typedPins,
  unread,
} from '../../../src/ui/settings/siteRulesDraft.ts';

const typed = (part: Partial<typeof NOTHING_TYPED>) => ({ ...NOTHING_TYPED, ...part });

test.each([
  ['100', 100],
  [' 1000 ', 1000],
  ['0', 'Write a whole number from 1 to 10000.'],
  ['1.5', 'Write a whole number from 1 to 10000.'],
  ['', 'Write a whole number from 1 to 10000.'],
])('The factor %j is read as %j', (text, wanted) => {
  expect(textToFactor(text)).toBe(wanted);
});

test('One number is a range of one; a range that runs backwards is refused', () => {
  expect(addException(USUAL_RULES, typed({ first: '9001', why: ' outside ' }))).toEqual({
    type: 'rules',
    rules: { ...USUAL_RULES, channelExceptions: [{ first: 9001, last: 9001, why: 'outside' }] },
  });
  expect(addException(USUAL_RULES, typed({ first: '9', last: '8' })).type).toBe('bad');
  expect(addException(USUAL_RULES, typed({ first: 'x', last: '8' })).type).toBe('bad');
});

test.each([
  ['192.0.2.0/24', 'rules'],
  ['192.0.2.0', 'bad'],
  ['192.0.2.300/24', 'bad'],
  ['', 'bad'],
])('The subnet %j makes %s', (subnet, type) => {
  expect(addSubnet(USUAL_RULES, typed({ subnet })).type).toBe(type);
});

test('Two subnets are told where they overlap, and where the rule would give one number twice', () => {
  const named = (name: string, subnet: string, add?: number) => ({ name, subnet, ...(add ? { add } : {}) });
  const rules = { ...USUAL_RULES, subnets: [named('A', '192.0.2.0/24'), named('B', '192.0.2.64/26')] };
  expect(overlapsToWords(rules)).toEqual(['A and B overlap: an address can belong to both.']);
  const apart = { ...USUAL_RULES, subnets: [named('A', '192.0.2.0/24'), named('B', '198.51.100.0/24')] };
  expect(overlapsToWords(apart)).toEqual([]);
  expect(sharedNumbers(apart)).toContain('A and B');
  const added = { ...apart, subnets: [named('A', '192.0.2.0/24'), named('B', '198.51.100.0/24', 10_000)] };
  expect(sharedNumbers(added)).toBeNull();
  expect(channelExample(added)).toBe('192.0.2.21, input 1: channel 2101. In B: 12101.');
});

test('A pair stands once, whichever way round, and never with a signal that carries power', () => {
  const first = addMeeting(USUAL_RULES, typed({ a: 'line-audio', b: 'aes3' }));
  if (first.type !== 'rules') throw new Error(first.why);
  expect(first.rules.mayMeet).toEqual([{ a: 'line-audio', b: 'aes3', why: '' }]);
  expect(addMeeting(first.rules, typed({ a: 'aes3', b: 'line-audio' })).type).toBe('bad');
  expect(addMeeting(USUAL_RULES, typed({ a: 'mains', b: 'aes3' })).type).toBe('bad');
  expect(addMeeting(USUAL_RULES, typed({ a: 'aes3', b: 'aes3' })).type).toBe('bad');
});

test('A full list takes no more', () => {
  const subnets = Array.from({ length: MAX_RULES }, (_, i) => ({ name: String(i), subnet: `192.0.2.${i}/32` }));
  expect(addSubnet({ ...USUAL_RULES, subnets }, typed({ subnet: '198.51.100.0/24' })).type).toBe('bad');
});

test('A word gets a signal; a word that tells of power keeps its own, and stands in the list once', () => {
  const add = (rules: typeof USUAL_RULES, word: string, stands: 'closure' | 'mains' | 'line-audio') =>
    addSignalWords(rules, typed({ word, stands }));
  const one = add(USUAL_RULES, ' ENG ', 'line-audio');
  expect(one).toEqual({
    type: 'rules',
    rules: { ...USUAL_RULES, signalWords: [{ words: 'ENG', signal: 'line-audio' }] },
  });
  const rules = one.type === 'rules' ? one.rules : USUAL_RULES;
  expect(add(rules, 'eng', 'closure')).toMatchObject({ type: 'bad', why: expect.stringContaining('in the list') });
  expect(add(rules, '  ', 'closure').type).toBe('bad');
  expect(add(rules, ' - ', 'closure').type).toBe('bad');
  expect(add(rules, 'UPS feed', 'line-audio')).toMatchObject({
    type: 'bad',
    why: expect.stringContaining('keeps its meaning'),
  });
  expect(add(rules, 'UPS feed', 'mains').type).toBe('rules');
});

test('A word for on-air is in the list once, and is none of the usual ones', () => {
  const add = (rules: typeof USUAL_RULES, air: string) => addAirWord(rules, typed({ air }));
  const one = add(USUAL_RULES, ' PGM ');
  expect(one).toEqual({ type: 'rules', rules: { ...USUAL_RULES, airWords: ['PGM'] } });
  const rules = one.type === 'rules' ? one.rules : USUAL_RULES;
  expect(add(rules, 'pgm')).toMatchObject({ type: 'bad', why: 'pgm is in the list.' });
  expect(add(rules, 'Main programme')).toMatchObject({ type: 'bad', why: expect.stringContaining('already counts') });
  for (const blank of ['', '  ', ' - ']) expect(add(rules, blank).type).toBe('bad');
  const full = { ...USUAL_RULES, airWords: Array.from({ length: MAX_AIR_WORDS }, (_, i) => `bus ${i}`) };
  expect(add(full, 'one more').type).toBe('bad');
});

test.each([
  ['black/brown, black/red', [2, 'black', 'brown']],
  ['white / blue;\n white/orange\n', [2, 'white', 'blue']],
  ['', 'Write at least one pair'],
  ['white', '“white” is no pair'],
  ['a/b/c', '“a/b/c” is no pair'],
  ['white/blue, WHITE/Blue', 'is listed twice'],
  [`${'x'.repeat(30)}/blue`, 'is too long'],
  [Array.from({ length: MAX_PAIRS + 1 }, (_, i) => `a/${i}`).join(), 'pairs are not kept'],
])('The order of pairs %j is read as %j', (text, wanted) => {
  const read = textToPairs(text);
  if (typeof wanted === 'string') expect(read).toContain(wanted);
  else expect(typeof read === 'string' ? read : [read.length, read[0]?.tip, read[0]?.ring]).toEqual(wanted);
});

test('The published order comes back from its own text', () => {
  expect(textToPairs(pairsToText(USUAL_PAIRS))).toEqual(USUAL_PAIRS);
});

test('Contacts are two of eight; left and right may be exchanged in either order and never share one', () => {
  const pins = (left: string | null, right: string | null = null) =>
    typedPins(USUAL_RULES, { left, right, aes3: null });
  expect(pins('4/5')).toMatchObject({ type: 'pins', pins: { left: { hot: 4, cold: 5 }, right: { hot: 3, cold: 6 } } });
  expect(pins('3/6')).toMatchObject({ type: 'bad', at: 'left', why: expect.stringContaining('share contact 3') });
  expect(pins('3/6', '1/2')).toMatchObject({ type: 'pins', pins: { left: { hot: 3, cold: 6 } } });
  for (const wrong of ['1', '1/9', '0/1', '2/2', 'a/b', '']) expect(pins(wrong).type).toBe('bad');
  expect(unread(USUAL_RULES, typed({ left: '1' }))).toBe(true);
  expect(unread(USUAL_RULES, typed({ pairs: 'white' }))).toBe(true);
  expect(unread(USUAL_RULES, typed({ pairs: 'white/blue', left: '4/5' }))).toBe(false);
  expect([isTyped(NOTHING_TYPED), isTyped(typed({ aes3: '4/5' }))]).toEqual([false, true]);
});

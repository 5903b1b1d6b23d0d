// What is typed becomes a rule or a sentence that says what is wrong with it. Addresses: RFC 5737; numbers invented.
import { expect, test } from 'vitest';
import { MAX_RULES, USUAL_RULES } from '../../../src/core/plan/desk/siteRules.ts';
import {
  addException,
  addMeeting,
  addSubnet,
  channelExample,
  NOTHING_TYPED,
  overlapsToWords,
  sharedNumbers,
  textToFactor,
} from '../../../src/ui/screens/siteRulesDraft.ts';

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

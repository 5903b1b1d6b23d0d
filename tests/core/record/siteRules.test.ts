// The station's own rules as events: the usual ones until somebody sets them, then what was set last, whatever order the
// events come in; an event fits its limits at its longest. Invented data.
import { describe, expect, it } from 'vitest';
import { MAX_EVENT_TEXT } from '../../../src/core/record/eventLimits.ts';
import { readEvent } from '../../../src/core/record/events.ts';
import { createStation } from '../../../src/core/rules/station.ts';
import {
  MAX_AIR_WORD,
  MAX_AIR_WORDS,
  MAX_COLOUR,
  MAX_PAIRS,
  MAX_RULE_WORDS,
  MAX_RULES,
  MAX_SIGNAL_WORD,
  readSiteRules,
  type SiteRules,
  USUAL_RULES,
} from '../../../src/core/schedule/desk/siteRules.ts';
import { USUAL_AUDIO_PINS } from '../../../src/core/trade/audioPins.ts';
import { pairToColours, USUAL_PAIRS } from '../../../src/core/trade/partsPairs.ts';
import { started } from './build.ts';

const event = (id: string, at: number, rules: SiteRules, author = 'I. Halloran') =>
  JSON.stringify({
    ...{ v: 1, id, station: 's', log: id, seq: 0, prev: null, author, at, zone: 0 },
    kind: 'rules-set',
    payload: { rules },
  });
const many = <T>(one: T, n = MAX_RULES) => Array.from({ length: n }, () => one);
const factor = (n: number): SiteRules => ({ ...USUAL_RULES, channel: { factor: n } });

describe('the rules of a station', () => {
  it('are the usual ones while nobody set any', () => {
    expect(createStation().rules()).toEqual({ rules: USUAL_RULES, set: null });
  });

  it('are those set last, in whatever order and how often the events arrive', () => {
    const texts = [event('a', 10, factor(10)), event('c', 30, factor(30), 'M. Okafor'), event('b', 20, factor(20))];
    for (const order of [texts, [...texts].reverse(), [...texts, ...texts]]) {
      const station = createStation();
      for (const text of order) station.addTexts([text]);
      expect(station.rules()).toEqual({ rules: factor(30), set: { by: 'M. Okafor', at: 30 } });
    }
  });

  it('fit an event at their longest, and no list longer than that is read', () => {
    const words = 'ü'.repeat(MAX_RULE_WORDS);
    const longest: SiteRules = {
      ...USUAL_RULES,
      channelExceptions: many({ first: 9_999_999, last: 9_999_999, why: words }),
      subnets: many({ name: words, subnet: words, add: 9_999_999 }),
      mayMeet: many({ a: 'fibre-single-mode', b: 'fibre-multimode', why: words }),
      signalWords: many({ words: 'ü'.repeat(MAX_SIGNAL_WORD), signal: 'fibre-single-mode' }),
      pairs: many({ tip: 'ü'.repeat(MAX_COLOUR), ring: 'ü'.repeat(MAX_COLOUR) }, MAX_PAIRS),
      airWords: many('ü'.repeat(MAX_AIR_WORD), MAX_AIR_WORDS),
    };
    const text = event('a', 1, longest);
    expect(text.length).toBeLessThan(MAX_EVENT_TEXT);
    expect(readEvent(text).type).toBe('event');
    const more = { ...longest, mayMeet: many(longest.mayMeet[0]!, MAX_RULES + 1) };
    expect(readEvent(event('a', 1, more)).type).toBe('unreadable');
  });

  it('of an older build read as before, with what is usual in the new tables', () => {
    const { signalWords: _w, pairs: _p, audioPins: _a, ...old } = factor(10);
    const station = createStation();
    station.addTexts([event('a', 10, old as SiteRules)]);
    expect(station.rules().rules).toEqual(factor(10));
  });

  it('keep the words for the air when a build sets rules that does not know them, and take none out when told', () => {
    const words = event('a', 10, { ...USUAL_RULES, airWords: ['PGM'] });
    const older = event('b', 20, factor(10));
    const none = event('c', 30, { ...USUAL_RULES, airWords: [] });
    const station = createStation();
    station.addTexts([older, words]);
    expect(station.rules().rules).toEqual({ ...factor(10), airWords: ['PGM'] });
    expect(readEvent(older).type).toBe('event');
    station.addTexts([none]);
    expect(station.rules().rules.airWords).toEqual([]);
  });

  it('name the colours of pairs for every audit, whichever comes first', () => {
    const pairs = [
      { tip: 'black', ring: 'brown' },
      { tip: 'black', ring: 'red' },
      { tip: 'grey', ring: 'brown' },
      { tip: 'grey', ring: 'red' },
    ];
    const begun = JSON.stringify({ ...started({ plan: null }), id: 'w', audit: 'w' });
    const rules = event('r', 20, { ...USUAL_RULES, pairs });
    for (const order of [
      [begun, rules],
      [rules, begun],
    ]) {
      const station = createStation();
      for (const text of order) station.addTexts([text]);
      expect(station.audit('w')?.fold?.pairOrder).toEqual(pairs);
    }
    // And back to the published order.
    const station = createStation();
    station.addTexts([begun, rules, event('s', 30, USUAL_RULES)]);
    expect(station.audit('w')?.fold?.pairOrder).toEqual(USUAL_PAIRS);
    expect(pairToColours(3, pairs)).toEqual({ tip: 'grey', ring: 'brown' });
    expect(pairToColours(5, pairs)).toEqual({ tip: 'black', ring: 'brown' });
    expect([2, 3, 4, 5].map((pair) => pairToColours(pair, pairs).tip === 'grey')).toEqual([false, true, true, false]);
  });
});

describe('the rules in a file', () => {
  it.each([
    [{ signalWords: [{ words: 'X', signal: 'audio' }] }, 'signalWords entry 1 signal', 'expected one of microphone'],
    [{ signalWords: [{ words: 'PoE', signal: 'network' }] }, 'signalWords entry 1', 'keeps its meaning'],
    [{ signalWords: 'X' }, 'signalWords', 'expected a list'],
    [{ pairs: [{ tip: '', ring: 'blue' }] }, 'pairs entry 1 tip', 'it is blank'],
    [{ pairs: [{ tip: 'white' }] }, 'pairs entry 1 ring', 'expected a text'],
    [{ pairs: many({ tip: 'a', ring: 'b' }, 2) }, 'pairs', 'is listed twice'],
    [{ audioPins: { ...USUAL_AUDIO_PINS, left: { hot: 3, cold: 4 } } }, 'audioPins', 'share contact 3'],
    [{ audioPins: { ...USUAL_AUDIO_PINS, aes3: { hot: 9, cold: 1 } } }, 'audioPins aes3 hot', 'more than 8'],
    [{ audioPins: { ...USUAL_AUDIO_PINS, aes3: { hot: 5, cold: 5 } } }, 'audioPins', 'the same contact'],
  ])('are refused with a place and a reason: %j', (part, where, why) => {
    const read = readSiteRules({ ...USUAL_RULES, ...part });
    expect(read).toMatchObject({ type: 'bad', where, why: expect.stringContaining(why) });
  });

  it('are taken with an order of pairs, words and contacts of their own', () => {
    const own = {
      ...USUAL_RULES,
      signalWords: [{ words: 'ENG', signal: 'line-audio' }],
      pairs: [{ tip: 'black', ring: 'brown' }],
      audioPins: { ...USUAL_AUDIO_PINS, aes3: { hot: 5, cold: 4 } },
    };
    expect(readSiteRules(own)).toEqual({ type: 'rules', rules: own });
  });
});

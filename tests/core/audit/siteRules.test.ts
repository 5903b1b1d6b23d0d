// The station's own rules as events: the usual ones until somebody sets them, then what was set last, whatever order the
// events come in; an event fits its limits at its longest. Invented data.
import { describe, expect, it } from 'vitest';
import { MAX_EVENT_TEXT } from '../../../src/core/audit/eventLimits.ts';
import { readEvent } from '../../../src/core/audit/events.ts';
import { createStation } from '../../../src/core/audit/station.ts';
import { MAX_RULE_WORDS, MAX_RULES, type SiteRules, USUAL_RULES } from '../../../src/core/plan/desk/siteRules.ts';

const event = (id: string, at: number, rules: SiteRules, author = 'I. Halloran') =>
  JSON.stringify({
    ...{ v: 1, id, station: 's', log: id, seq: 0, prev: null, author, at, zone: 0 },
    kind: 'rules-set',
    payload: { rules },
  });
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
    const many = <T>(one: T, n = MAX_RULES) => Array.from({ length: n }, () => one);
    const longest: SiteRules = {
      ...USUAL_RULES,
      channelExceptions: many({ first: 9_999_999, last: 9_999_999, why: words }),
      subnets: many({ name: words, subnet: words, add: 9_999_999 }),
      mayMeet: many({ a: 'fibre-single-mode', b: 'fibre-multimode', why: words }),
    };
    const text = event('a', 1, longest);
    expect(text.length).toBeLessThan(MAX_EVENT_TEXT);
    expect(readEvent(text).type).toBe('event');
    const more = { ...longest, mayMeet: many(longest.mayMeet[0]!, MAX_RULES + 1) };
    expect(readEvent(event('a', 1, more)).type).toBe('unreadable');
  });
});

// When a label counts as read again. The 1,000 ms are invented, so the tests hold the rule, not the number.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BOUNCE_MS, createRepeats, OUT_OF_VIEW_MS } from '../../src/scan/repeats.ts';

const text = fc.constantFrom('1003', '1004', 'I1', '11');
const step = fc.record({ after: fc.integer({ min: 0, max: 400 }), view: fc.uniqueArray(text, { maxLength: 3 }) });

test('a text is never reported twice unless it was out of view long enough in between', () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 80 }), (steps) => {
      const repeats = createRepeats();
      const lastSeen = new Map<string, number>();
      const reported = new Set<string>();
      let now = 0;
      for (const { after, view } of steps) {
        now += after;
        const [taken = null] = view;
        const news = repeats.look(view, taken, now);
        if (taken !== null) {
          const away = now - (lastSeen.get(taken) ?? Number.NEGATIVE_INFINITY);
          expect(news).toBe(!reported.has(taken) || away >= OUT_OF_VIEW_MS);
          reported.add(taken);
        } else expect(news).toBe(false);
        for (const seen of view) {
          // One that came back into view after long, but was not taken, may be reported as soon as it is.
          if (now - (lastSeen.get(seen) ?? now) >= OUT_OF_VIEW_MS && seen !== taken) reported.delete(seen);
          lastSeen.set(seen, now);
        }
      }
    }),
  );
});

test('asking again makes whatever is taken next news', () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 30 }), text, (steps, taken) => {
      const repeats = createRepeats();
      let now = 0;
      for (const { after, view } of steps) {
        now += after;
        repeats.look(view, view[0] ?? null, now);
      }
      repeats.again();
      expect(repeats.look([taken], taken, now)).toBe(true);
      expect(repeats.look([taken], taken, now)).toBe(false);
    }),
  );
});

test('time in which nobody looked does not count as out of view', () => {
  const repeats = createRepeats({ blindAfterMs: 900 });
  expect(repeats.look(['1003'], '1003', 0)).toBe(true);
  expect(repeats.look(['1003'], '1003', 60_000)).toBe(false);
  for (let now = 60_100; now < 61_000; now += 100) repeats.look([], null, now);
  expect(repeats.look(['1003'], '1003', 61_000)).toBe(true);
});

test('a neighbour that was only in view is news when it is aimed at', () => {
  const repeats = createRepeats();
  expect(repeats.look(['1003', '1004'], '1003', 0)).toBe(true);
  expect(repeats.look(['1003', '1004'], '1004', 100)).toBe(true);
  expect(repeats.look(['1003', '1004'], '1003', 200)).toBe(false);
});

test('a clock that jumps back reports nothing twice', () => {
  const repeats = createRepeats();
  expect(repeats.look(['1003'], '1003', 5_000)).toBe(true);
  expect(repeats.look(['1003'], '1003', 1_000)).toBe(false);
  expect(repeats.look(['1003'], '1003', 1_500)).toBe(false);
});

test('at another place the same text is news once no bounce of the trigger can have been it', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 3 * OUT_OF_VIEW_MS }), fc.boolean(), (after, moved) => {
      const repeats = createRepeats();
      expect(repeats.look(['1003'], '1003', 0)).toBe(true);
      if (moved) repeats.moved();
      expect(repeats.look(['1003'], '1003', after)).toBe(after >= (moved ? BOUNCE_MS : OUT_OF_VIEW_MS));
      // What is read there is held as long as anything else.
      if (after >= OUT_OF_VIEW_MS) expect(repeats.look(['1003'], '1003', after + BOUNCE_MS)).toBe(false);
    }),
  );
});

// Labels put on and taken off, over several looks at one plug: a look that saw less never hides what another one read.
// Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { renamings } from '../../../src/core/renaming/renaming.ts';
import { createFold, foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from './build.ts';

const plan = planOf([['2005', 'COD42 AES', 'DIO22 I1']]);
const begin = started({ occasion: 'relabel' });
const place = at('COD42 AES');
const listed = event('renaming-listed', {
  list: 'r',
  name: 'numbers',
  renames: [{ cable: '2005', old: '2005', new: '2004' }],
});
const bears = (events: AuditEvent[]) =>
  foldAll(plan, events)
    .stateAt(place)
    .plugs.flatMap(({ labels }) => labels.map(({ text }) => text))
    .sort();

describe('a new label on a plug that somebody had seen from afar before the old label was read', () => {
  const end = (words: string) => {
    const looks = [statement([words], 'plugged'), saw(words, '2005')];
    const upon = looks.map(({ id }) => id);
    return [...looks, event('label-put', { place: at(words), text: '2004', upon, why: 'rename' })];
  };
  it('stands beside the old one until that is off, at both ends', () => {
    const events = [begin, listed, ...end('COD42 AES'), ...end('DIO22 I1')];
    expect(bears(events)).toEqual(['2004', '2005']);
    const [one] = renamings(foldAll(plan, events));
    expect(one?.state).toBe('both-new');
    expect(one?.ends.map(({ oldOn, oldOff }) => ({ oldOn, oldOff }))).toEqual([
      { oldOn: true, oldOff: null },
      { oldOn: true, oldOff: null },
    ]);
  });
});

describe('label acts over several looks', () => {
  const seen = fc.constantFrom('plugged', 'illegible', 'read');
  const act = fc.record({ put: fc.boolean(), text: fc.constantFrom('2004', '2005', 'U-001') });
  const clock = fc.integer({ min: 0, max: 20 });
  it('leave what was read and put, less what was taken off, whatever the clocks and the order of arrival', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(seen, clock), { minLength: 1, maxLength: 4 }),
        fc.array(fc.tuple(act, clock), { maxLength: 4 }),
        fc.infiniteStream(fc.nat()),
        (looks, acts, chance) => {
          const said = looks.map(([what, time]) => {
            const more = { at: 2_000_000 + time };
            if (what === 'read') return { ...saw('COD42 AES', '2005'), ...more };
            if (what === 'plugged') return { ...statement(['COD42 AES'], 'plugged'), ...more };
            const plugs = [{ labels: [], pattern: '20?5' }];
            return { ...statement(['COD42 AES'], 'illegible', { plugs }), ...more };
          }) as AuditEvent[];
          const upon = said.map(({ id }) => id);
          const work = acts.map(([{ put, text }, time]) => {
            const more = { at: 3_000_000 + time };
            return put
              ? event('label-put', { place, text, upon, why: 'new' }, more)
              : event('label-off', { place, text, upon }, more);
          });
          const on = new Set(looks.some(([what]) => what === 'read') ? ['2005'] : []);
          for (const [{ put, text }] of acts) if (put) on.add(text);
          for (const [{ put, text }] of acts) if (!put) on.delete(text);
          const expected = [...on].sort();
          const events = [begin, ...said, ...work];
          const shuffled = events
            .map((one) => ({ one, key: chance.next().value as number }))
            .sort((a, b) => a.key - b.key)
            .map(({ one }) => one);
          expect(bears(events)).toEqual(expected);
          expect(bears(shuffled)).toEqual(expected);
          const slowly = createFold(plan);
          for (const one of shuffled) slowly.add([one]);
          expect(slowly.stateAt(place)).toEqual(foldAll(plan, events).stateAt(place));
          expect(slowly.stateAt(place).type).not.toBe('conflict');
        },
      ),
      { numRuns: 60 },
    );
  });
});

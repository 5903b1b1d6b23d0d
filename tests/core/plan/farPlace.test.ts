// A far place as it is typed in a hurry: matched as labels are, asked when nobody knows it. Plan invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textToFarPlace } from '../../../src/core/plan/farPlace.ts';
import { indexPlan } from '../../../src/core/plan/planIndex.ts';
import { at, planOf } from '../record/build.ts';

const rows = Array.from({ length: 24 }, (_, i) => `SW2 P${String(i + 1).padStart(2, '0')}`);
const plan = planOf(
  [['1001', 'MIO31 NET', 'SW1 P02']],
  [...rows.map((words) => ({ at: words })), { at: 'PB1 I1' }, { at: 'AIO21 OUT L' }],
);
const index = indexPlan(plan);
const ask = (text: string, known: string[] = []) => textToFarPlace(index, text, (place) => known.includes(place));
const offers = (text: string) => {
  const found = ask(text);
  return found.type === 'ask' ? found.offers.map(({ words }) => words) : found;
};

describe('a typed far place', () => {
  it.each([
    ['SW2 P15', 'SW2 P15'],
    ['sw2 p15', 'SW2 P15'],
    ['sw2-p15', 'SW2 P15'],
    ['SW2P15', 'SW2 P15'],
    ['sw2 p5', 'SW2 P05'],
    ['sw 2 P05', 'SW2 P05'],
    ['pb1 11', 'PB1 I1'],
    ['aio21 out l', 'AIO21 OUT L'],
  ])('%s is %s', (text, words) => {
    expect(ask(text)).toEqual({ type: 'found', place: at(words), words });
  });

  it('is asked when the unit has no such jack, the one with its number first', () => {
    expect(ask('sw2 15')).toMatchObject({ type: 'ask', why: 'no-such-jack', known: 'SW2' });
    expect(offers('sw2 15')).toContain('SW2 P15');
    expect(offers('sw2 15')).toHaveProperty('0', 'SW2 P15');
    expect(ask('sw2 99')).toMatchObject({
      type: 'ask',
      why: 'no-such-jack',
      kept: { place: 'SW2/99', words: 'sw2 99' },
    });
  });

  it('is asked when nobody knows the unit, with the jack of a unit of nearly that name', () => {
    expect(ask('sw3 P15')).toMatchObject({ type: 'ask', why: 'no-such-unit' });
    expect(offers('sw3 P15')).toEqual(expect.arrayContaining(['SW2 P15', 'SW1 P02']));
    expect(offers('frame9 P1')).toEqual([]);
  });

  it('is asked when two units bear the name, and told apart by where they are', () => {
    const twice = indexPlan({
      ...plan,
      units: [...plan.units, { ...plan.units[0]!, id: 'SW2~B', label: 'SW2', room: 'Annexe', faces: [] }],
      jacks: [
        ...plan.jacks,
        { id: 'SW2~B/P15', unit: 'SW2~B', label: 'P15', mult: false, spare: false, implied: false },
      ],
    });
    const found = textToFarPlace(twice, 'sw2 p15', () => false);
    expect(found).toMatchObject({ type: 'ask', why: 'several' });
    expect(found.type === 'ask' && found.offers.map(({ where }) => where).sort()).toEqual(['Annexe', 'Technical room']);
  });

  it('is taken as it stands when somebody spoke about it, when it is words, or a rack position that there is', () => {
    expect(ask('sw2 99', ['SW2/99'])).toMatchObject({ type: 'found', place: 'SW2/99' });
    expect(ask('loose: tray of R2')).toMatchObject({ type: 'found', words: 'loose: tray of R2' });
    const rack = { id: 'R2', label: 'R2', heightU: 42, numbering: 'bottom-up' as const, implied: false };
    const racked = indexPlan({ ...plan, racks: [rack] });
    expect(textToFarPlace(racked, 'R2 U26', () => false)).toMatchObject({ type: 'found', place: '@R2/U26' });
    expect(textToFarPlace(racked, 'R2 U43', () => false)).toMatchObject({ type: 'ask', why: 'outside-rack' });
  });

  it('is unreadable when it names no place at all', () => {
    for (const text of ['', '   ', 'P15', 'loose:', 'SW2 P01..P24']) expect(ask(text)).toEqual({ type: 'unreadable' });
  });

  it('never throws, never takes a place that nobody knows, offers only places of the plan', () => {
    const word = fc.constantFrom(
      'SW2',
      'sw1',
      'P15',
      '15',
      '99',
      'PB1',
      'I1',
      '-',
      '..',
      'loose:',
      'R2',
      'U3',
      '/',
      '',
    );
    const text = fc.oneof(
      fc.string({ unit: 'grapheme', maxLength: 30 }),
      fc.array(word, { maxLength: 4 }).map((parts) => parts.join(' ')),
    );
    fc.assert(
      fc.property(text, (typed) => {
        const found = ask(typed);
        if (found.type === 'found' && !found.place.startsWith('~')) expect(index.jacks.has(found.place)).toBe(true);
        if (found.type === 'ask') {
          for (const { place } of found.offers) expect(index.jacks.has(place)).toBe(true);
          expect(found.offers.length).toBeLessThanOrEqual(6);
        }
      }),
    );
  });
});

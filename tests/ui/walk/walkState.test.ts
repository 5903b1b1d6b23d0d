// Labels and sentences as the screen can bear them. Data invented.
import { describe, expect, it } from 'vitest';
import { labelToBox, labelToShow, sentenceToShow } from '../../../src/ui/walk/walkState.ts';

describe('a label on the screen', () => {
  it('of ten thousand characters is cut and says so', () => {
    const shown = labelToShow('A'.repeat(10_000));
    expect(shown).toBe(`${'A'.repeat(16)}… (10000 characters)`);
  });

  it('that is merely long keeps its end, where labels of one series differ', () => {
    const long = (n: number) => `STUDIO-A/PROGRAMME/LEFT/TO/TRANSMITTER/FEED/${n}`;
    expect(labelToShow(long(1000))).toBe('STUDIO-A/…TTER/FEED/1000');
    expect(labelToBox(long(1000))).toBe('STUDI…EED/1000');
    expect(labelToShow(long(1001))).not.toBe(labelToShow(long(1000)));
    expect(labelToBox(long(1001))).not.toBe(labelToBox(long(1000)));
  });

  it('counts a letter with its accents as one and never parts them', () => {
    const letter = 'e\u030a\u0301';
    expect(labelToBox(letter.repeat(14))).toBe(letter.repeat(14));
    expect(labelToBox(letter.repeat(15))).toBe(`${letter.repeat(5)}…${letter.repeat(8)}`);
  });

  it('shows control and direction signs by their number and stays text', () => {
    expect(labelToShow('10\u202e03\u0007')).toBe('10[U+202E]03[U+0007]');
    expect(labelToShow('<b>1</b>')).toBe('<b>1</b>');
  });
});

describe('a sentence of the record', () => {
  it('that quotes a hostile label keeps its own words and shortens the quote', () => {
    const label = `<i>${'X'.repeat(600)}`;
    const shown = sentenceToShow(`${label} is not in the plan. Plan has 1003 here.`, label);
    expect(shown).toContain('is not in the plan. Plan has 1003 here.');
    expect(shown.length).toBeLessThan(100);
    expect(labelToBox(label)).toBe('<i>XXXXXXX…');
    expect(labelToBox('NET-PRI-A-1003')).toBe('NET-PRI-A-1003');
  });
});

// Names of another direction and hidden signs as they are drawn. FSI and PDI are the isolate controls of the Unicode
// Bidirectional Algorithm (UAX 9); how a browser then orders the letters is looked at in bidi.test.ts of tests/browser. Names
// invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hiddenShown, toScreen } from '../../src/ui/bidi.ts';

const FSI = '\u2068';
const PDI = '\u2069';
const studio = 'אולפן';
const mixer = 'الخلاط';

describe('a name of another direction in a sentence', () => {
  it.each([
    [`${studio} is here, plan 1003.`, `${FSI}${studio}${PDI} is here, plan 1003.`],
    // A number behind it belongs to the name; punctuation and the words of the sentence do not.
    [
      `SW1 P03: ${studio} 12 is here. It may be ${mixer}-3 or 7.`,
      `SW1 P03: ${FSI}${studio} 12${PDI} is here. It may be ${FSI}${mixer}-3${PDI} or 7.`,
    ],
    [`${studio} ב, ${mixer}`, `${FSI}${studio} ב${PDI}, ${FSI}${mixer}${PDI}`],
    [`${mixer} 1/${studio} 2: not seen yet.`, `${FSI}${mixer} 1/${studio} 2${PDI}: not seen yet.`],
  ])('%s', (text, drawn) => {
    expect(toScreen(text)).toBe(drawn);
  });

  it('leaves every other text as it is, letters of other scripts and joiners included', () => {
    for (const text of ['1003', 'Träger Ö-2', 'студия 1', '放送室', '👩‍🔧', 'a\tb\nc', 'soft\u00adhyphen', '']) {
      expect(toScreen(text)).toBe(text);
    }
  });

  it('isolates in pairs that are never nested, adds nothing else, and leaves no letter of that direction outside', () => {
    const part = fc.constantFrom(studio, mixer, 'P03', ' ', ', ', ': ', '12', '-', '(', ')', '.', 'is here', '\u0301');
    fc.assert(
      fc.property(fc.array(part, { maxLength: 12 }), (parts) => {
        const text = parts.join('');
        const drawn = toScreen(text);
        expect(drawn.replaceAll(FSI, '').replaceAll(PDI, '')).toBe(text);
        const outside = drawn.split(new RegExp(`${FSI}[^${FSI}${PDI}]*${PDI}`, 'u')).join('');
        expect(outside).not.toMatch(/[\u0590-\u08ff\u2068\u2069]/u);
      }),
    );
  });
});

describe('signs that nobody sees', () => {
  it('are shown by their number and can turn nothing round', () => {
    expect(hiddenShown('10\u202e03')).toBe('10[U+202E]03');
    expect(toScreen(`\u2067${studio}\u202c\u200b`)).toBe(`[U+2067]${FSI}${studio}${PDI}[U+202C][U+200B]`);
    expect(toScreen('a\u0000b\u{e0041}')).toBe('a[U+0000]b[U+E0041]');
  });
  it('of any kind never reach the screen as they are', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 30 }), (text) => {
        const left = toScreen(text).replaceAll(FSI, '').replaceAll(PDI, '');
        expect(left.match(/(?!\t|\n|\r|\u200c|\u200d|\u00ad)[\p{Cc}\p{Cf}]/gu)).toBeNull();
      }),
    );
  });
});

// Labels and sentences as the screen can bear them: hidden signs by their number, hostile lengths cut, both ends kept.
// It changes nothing that is recorded.
import { hiddenShown } from '../bidi.ts';

const SHOWN_AT_MOST = 24;
/** No label on a cable is longer; what is, has its length told instead of its end. */
const LABEL_AT_MOST = 80;

/** Letters as the eye counts them: an accent of its own stays with its letter, where the browser knows. */
const eye = new Intl.Segmenter();
export const lettersOf = (text: string) => Array.from(eye.segment(text), ({ segment }) => segment);

const bareOf = (text: string) => hiddenShown(text.replace(/\s+/gu, ' ')).trim();

/** Both ends stay when a text is shortened: names of one series differ in the last letters. */
function shortened(text: string, atMost: number): string {
  const letters = lettersOf(text);
  if (letters.length <= atMost) return text;
  const head = Math.floor((atMost - 1) * 0.4);
  return `${letters.slice(0, head).join('')}…${letters.slice(letters.length - (atMost - 1 - head)).join('')}`;
}

/** A label for the screen: signs that nobody sees by their number, and a hostile length becomes words instead of a wall. */
export function labelToShow(text: string): string {
  const bare = bareOf(text);
  const letters = lettersOf(bare);
  if (letters.length <= LABEL_AT_MOST) return shortened(bare, SHOWN_AT_MOST);
  return `${letters.slice(0, 16).join('')}… (${letters.length} characters)`;
}

/** The same for a box in a drawing or a band, where a wall of text would push everything else away. */
export function labelToBox(text: string): string {
  const bare = bareOf(text);
  const letters = lettersOf(bare);
  return letters.length <= LABEL_AT_MOST ? shortened(bare, 14) : `${letters.slice(0, 10).join('')}…`;
}

/** A sentence from the record may quote a label of any length; the quote is shortened, the sentence stays. */
export function sentenceToShow(sentence: string, label: string | null): string {
  const quoted =
    label !== null && label !== labelToShow(label) ? sentence.split(label).join(labelToShow(label)) : sentence;
  return quoted.replace(/\S{41,}/g, (run) => `${run.slice(0, 16)}…`);
}

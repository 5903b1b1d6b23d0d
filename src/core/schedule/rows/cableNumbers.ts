// The number of a row: one cable, or several with as many jacks on either side. What cannot be told from the jacks is
// asked; nothing else of the row is read here.
import { expandRange } from '../../plan/identity.ts';
import { isAside, type ListRow, orAside, splitMark, textToLabels, textToRange } from '../readCells.ts';
import { eatenName, isUnknown, saysBothLegs } from '../words.ts';
import type { GuessKind, Notebook, QuestionKind, RawCable, RawEnd } from './readTypes.ts';

type Numbered = Pick<RawCable, 'label' | 'from' | 'to'>;

interface NumberHelp {
  addNote(note: string): void;
  /** Are numbers of this sheet written with a dash that is no range, such as `12-1` for rack and cable? */
  isDashed: boolean;
  /** True the first time that a reading of this kind and text is met. */
  isNew(kind: string, text: string): boolean;
}

const DASHED = /^(\D*)(\d+)\s*[-–]\s*(\d+)$/;

/** `4-1`, `4-2`, `4-3`: names that begin alike. No two ranges of cables begin at the same number. */
export function hasDashedNames(numbers: readonly string[]): boolean {
  const behind = new Map<string, Set<string>>();
  for (const number of numbers) {
    const [, before = '', first, last = ''] = DASHED.exec(number) ?? [];
    if (first === undefined) continue;
    const key = before + first;
    behind.set(key, (behind.get(key) ?? new Set()).add(last));
  }
  return [...behind.values()].some((lasts) => lasts.size >= 3);
}

/** `2008-2009` with equal ranges of jacks is two cables; a single number keeps its range of jacks as one place. */
export function expandNumbers(
  sheet: string,
  row: ListRow,
  from: RawEnd[],
  to: RawEnd[],
  notebook: Notebook,
  { addNote, isDashed, isNew }: NumberHelp,
): Numbered[] {
  if (row.literal('number')) return [{ label: row.get('number'), from, to }];
  const said = row.get('number');
  const guess: NumberTell<GuessKind> = (kind, meaning, text, readAs) =>
    notebook.guess(kind, sheet, row.row, row.title(meaning), text, readAs);
  const ask: NumberTell<QuestionKind> = (kind, meaning, text, question) =>
    notebook.ask(kind, sheet, row.row, row.title(meaning), text, question);
  const isInDoubt = /\?$/.test(said) && !isUnknown(said);
  const { label: number, note } = splitMark(orAside(isInDoubt ? said.replace(/\s*\?+$/, '') : said));
  if (isInDoubt) ask('number', 'number', said, `Is ${number} the number of this cable?`);
  if (note !== '') {
    guess('note', 'number', said, `${number}, with the note ${note}`);
    addNote(note);
  }
  if (isAside(said)) guess('nothing-here', 'number', said, 'no number');
  if (number === '') ask('number', 'number', said, 'Which number is on this cable?');
  const eaten = eatenName(number);
  if (eaten && !row.noted('number'))
    guess(
      eaten === 'a date' ? 'date' : 'number-changed',
      'number',
      number,
      `${number}; a spreadsheet may have made ${eaten} of a number`,
    );
  const whole = { label: number, from, to };
  const labels = number === '' || eaten ? [] : numberToLabels(number, from, to);
  if (labels.length <= 1) {
    const n = countedDown(number);
    if (n > 1 && [from, to].some((side) => sideToList(side, n).length === n || countedDown(side[0]?.jack ?? '') === n))
      ask('several', 'number', number, `Is this one number, or ${n} cables counted downwards?`);
    tellWholePlaces([from, to], guess);
    return [whole];
  }
  const n = labels.length;
  const [fromList, toList] = [sideToList(from, n), sideToList(to, n)];
  if (fromList.length !== n && toList.length !== n) {
    tellWholePlaces([from, to], guess);
    if (isDashed && DASHED.test(number)) {
      if (isNew('dashed number', ''))
        guess('one-place', 'number', number, 'one number; others on this sheet have a dash and are no range');
    } else ask('several', 'number', number, `Is this one number, or ${n} cables? The jacks do not say.`);
    return [whole];
  }
  guess('several-cables', 'number', said, `${n} cables: ${labels[0]} to ${labels.at(-1)}`);
  const at = (list: RawEnd[], ends: RawEnd[], i: number): RawEnd[] => {
    const end = list[i];
    if (list.length === n && end) return [end];
    return ends.slice(0, 1).map((only) => ({ ...only, sure: false }));
  };
  if (fromList.length !== n || toList.length !== n) {
    const [side, ends] = fromList.length === n ? ['to', to] : ['from', from];
    ask('jack', `${side}Jack`, ends[0]?.jack ?? '', `Which ${n} jacks does this end go to?`);
  }
  return labels.map((label, i) => ({ label, from: at(fromList, from, i), to: at(toList, to, i) }));
}

/** What one number makes of a range or a pair of jacks: one place, and said so. */
function tellWholePlaces(sides: readonly RawEnd[][], guess: NumberTell<GuessKind>): void {
  for (const [i, ends] of sides.entries()) {
    const [only] = ends;
    if (ends.length !== 1 || !only?.sure || only.literal) continue;
    const meaning = i === 0 ? 'fromJack' : 'toJack';
    if (saysBothLegs(only.jack)) guess('one-place', meaning, only.jack, 'one place with two legs, left and right');
    else if (textToRange(only.jack) || isNextTo(only.jack))
      guess('one-place', meaning, only.jack, `one end at ${only.jack}, since there is one number`);
  }
}
type NumberTell<Kind> = (kind: Kind, meaning: string, said: string, words: string) => void;

/** `5/6`, `1&2`: a number and the one after it. */
function isNextTo(jack: string): boolean {
  const [, first, second] = /(\d+)\s*[/&+]\s*(\d+)$/.exec(jack) ?? [];
  return first !== undefined && Number(second) === Number(first) + 1;
}

/** How many numbers a range counts downwards; 0 for any other text. */
function countedDown(text: string): number {
  const [, before = '', first = '', again = '', last = ''] = /^(\D*)(\d+)\s*[-–]\s*(\D*)(\d+)$/.exec(text) ?? [];
  const n = Number(first) - Number(last) + 1;
  return (again === '' || again === before) && n > 1 && n <= 512 ? n : 0;
}

/** `2008/2009` is two numbers only where a side names two jacks: a number may well hold a stroke. */
function numberToLabels(number: string, from: RawEnd[], to: RawEnd[]): string[] {
  const labels = textToLabels(number);
  if (labels.length > 1) return labels;
  const isCount = (n: number) => [from, to].some((side) => sideToList(side, n).length === n);
  const parts = strokeParts(number);
  if (parts.length > 1 && [from, to].every((side) => sideToList(side, parts.length).length === parts.length))
    return parts;
  // `1201-10` are ten where a side has ten jacks.
  const [, before = '', first = '', last = ''] = DASHED.exec(number) ?? [];
  if (last === '' || last.length >= first.length) return labels;
  const short = expandRange(before + first, before + first.slice(0, -last.length) + last) ?? [];
  return short.length > 1 && isCount(short.length) ? short : labels;
}

/** `2110/11`, `OUT L/R`, `28/29`: the parts, with what the later ones leave out. A text without strokes is one part. */
function strokeParts(text: string): string[] {
  const [first = '', ...more] = text.split(/\s*[/+&]\s*/);
  const digits = /\d+$/.exec(first)?.[0] ?? '';
  const before = /^(.*?)([A-Za-z]|\d+)$/.exec(first)?.[1] ?? '';
  return [
    first,
    ...more.map((part) => {
      if (/^\d+$/.test(part) && digits !== '')
        return before + digits.slice(0, Math.max(0, digits.length - part.length)) + part;
      return /^[A-Za-z]$/.test(part) && /[\s\d_.-]$/.test(before) ? before + part : part;
    }),
  ];
}

/** The ends that one side names when its jack cell is a range, a list, or as many parts between strokes as are wanted. */
function sideToList(ends: RawEnd[], wanted: number): RawEnd[] {
  const [only] = ends;
  if (ends.length !== 1 || !only || !only.sure || only.literal || only.jack === '') return ends;
  const list = textToLabels(only.jack);
  const parts = list.length === wanted ? list : strokeParts(only.jack);
  return (parts.length === wanted ? parts : list).map((jack) => ({ ...only, jack }));
}

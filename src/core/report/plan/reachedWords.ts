// Which texts of a file came into its plan, or are spoken of by a guess or a question: the whole text first, else all
// of its letters and figures in what its own row made. Nothing is read here.
import type { Plan } from '../../plan/model.ts';
import type { Question, SortedGuess } from '../../schedule/rows/readTypes.ts';

interface CellAt {
  sheet: string;
  row: number;
  /** Of the cable that the row lists. */
  label: string | undefined;
  meaning: string | undefined;
}

/** Columns whose cells become a word of the plan's own, a number, or yes and no. */
const SORTS = new Set(
  `signal status onAir leg u fromU toU uTop height numbering mounted jacks layout jackFace direction spare mult phantom
  gain microphone pad normal role`.split(/\s+/),
);

/** Fields of the plan that hold a word of its own, not one of the file: `telephone`, `in-use`, the letter of an end. */
const NO_WORDS = new Set([
  'origin',
  'end',
  'signal',
  'leg',
  'status',
  'direction',
  'mounted',
  'numbering',
  'form',
  'face',
  'role',
]);

/** @param titles Of the lists: a header that is printed once more says nothing new. */
export function reachedWords(
  plan: Plan,
  { guesses, questions }: { guesses: readonly SortedGuess[]; questions: readonly Question[] },
  titles: readonly string[],
): (cell: string, at: CellAt) => boolean {
  const whole = new Set<string>(titles);
  const addAll = (value: unknown): void => {
    if (typeof value === 'string') whole.add(value);
    else if (Array.isArray(value)) for (const one of value) addAll(one);
    else if (typeof value === 'object' && value !== null) {
      for (const [name, one] of Object.entries(value)) if (!NO_WORDS.has(name)) addAll(one);
    }
  };
  addAll(itemsOf(plan));
  for (const { said, readAs } of guesses) whole.add(said).add(readAs);
  for (const { said } of questions) whole.add(said);
  let folded: Set<string> | null = null;
  let rows: RowWords | null = null;
  const cache = new Map<string, boolean>();
  const isWhole = (cell: string) => {
    const known = cache.get(cell);
    if (known !== undefined) return known;
    const text = cell.trim();
    folded ??= new Set([...whole].map(fold));
    const found = whole.has(text) || !/[\p{L}\p{N}]/u.test(text) || folded.has(fold(text));
    cache.set(cell, found);
    return found;
  };
  return (cell, at) => {
    if (whole.has(cell) || isWhole(cell)) return true;
    rows ??= rowWords(plan, guesses, questions);
    const mine = rows(at);
    if (!mine) return false;
    if (at.meaning !== undefined && SORTS.has(at.meaning)) return true;
    return piecesOf(cell).every((piece) => mine.has(piece));
  };
}

type Item = { origin?: { sheet: string; row: number } | undefined };
type RowWords = (at: CellAt) => ReadonlySet<string> | null;

function itemsOf(plan: Plan): Item[] {
  const { racks, units, jacks, cables, settings, circuits = [] } = plan;
  return [racks as Item[], units, jacks, cables, settings, circuits].flat();
}

const fold = (text: string) => text.trim().replace(/\s+/g, ' ').toLowerCase();

/** Runs of letters and of figures: `P11-16` is P, 11, 16. */
const piecesOf = (text: string) => text.toLowerCase().match(/\p{L}+|\p{N}+/gu) ?? [];

/** What the items of a row say, and where their units are; null for a row that made nothing. */
function rowWords(plan: Plan, guesses: readonly SortedGuess[], questions: readonly Question[]): RowWords {
  const items = new Map<string, Item[]>();
  const add = (key: string, item: Item) => {
    const list = items.get(key);
    if (list) list.push(item);
    else items.set(key, [item]);
  };
  for (const item of itemsOf(plan)) if (item.origin) add(`${item.origin.row} ${item.origin.sheet}`, item);
  const cables = new Map<string, Item>(plan.cables.map((cable) => [cable.label, cable]));
  const said = new Map<string, string[]>();
  for (const one of [...guesses, ...questions]) {
    const key = `${one.row} ${one.sheet}`;
    said.set(key, [...(said.get(key) ?? []), one.said]);
  }
  const racks = new Map(plan.racks.map(({ id, label }) => [id, label]));
  const places = new Map(
    plan.units.map(({ label, rack, room, u }) => [
      label,
      `${(rack && racks.get(rack)) ?? ''} ${room ?? ''} ${u === undefined ? '' : `U${u} RU${u}`}`,
    ]),
  );
  const made = new Map<string, ReadonlySet<string> | null>();
  return ({ sheet, row, label }) => {
    const key = `${row} ${sheet}`;
    const known = made.get(key);
    if (known !== undefined) return known;
    // A row that tells of a cable once more has made nothing of its own.
    const again = label === undefined ? undefined : cables.get(label.trim());
    const mine = items.get(key) ?? (again ? [again] : []);
    const words = new Set<string>();
    const take = (value: unknown): void => {
      if (typeof value === 'string') for (const piece of piecesOf(value)) words.add(piece);
      else if (typeof value === 'number') words.add(String(value));
      else if (Array.isArray(value)) for (const one of value) take(one);
      else if (typeof value === 'object' && value !== null) {
        for (const [name, one] of Object.entries(value)) {
          if (name === 'origin') continue;
          take(one);
          if (name === 'unit' && typeof one === 'string') take(places.get(one));
        }
      }
    };
    take(mine);
    for (const one of said.get(key) ?? []) take(one);
    const answer = mine.length === 0 ? null : words;
    made.set(key, answer);
    return answer;
  };
}

// Temporary numbers for cables without a label: blocks that one log alone gives out, twins that wait for their other
// end, and numbers that two people gave all the same. Derived from the record; free of order.
import { nameToKey } from '../plan/identity.ts';
import { type Discrepancy, makeDiscrepancy } from './discrepancy.ts';
import type { EventOf } from './events.ts';
import type { Fold } from './foldView.ts';
import { type GivenTwice, givenTwiceOf } from './givenTwice.ts';

/** Letters in front of a temporary number; the pre-printed strips bear them too. */
export const TWIN_PREFIX = 'U-';
export const BLOCK_SIZE = 50;
export const TWIN_DIGITS = 3;

export type Block = Pick<EventOf<'numbers-taken'>['payload'], 'prefix' | 'first' | 'last' | 'digits'>;

/** The next number of this log, and the block to take first where it has none left. */
export interface NextNumber {
  text: string;
  take: Block | null;
  /** Where a block was there before and has none left: first and last number of it and of the next one, in words. */
  spent?: { old: string; next: string };
}

export function numberToText({ prefix, digits }: Pick<Block, 'prefix' | 'digits'>, n: number): string {
  return `${prefix}${String(n).padStart(digits, '0')}`;
}

/**
 * The lowest number of this log's blocks that nobody has put or read; a new block begins above all that are known.
 * Two logs that had not met may have taken the same block: what is in both belongs to the one that took it first.
 */
export function nextNumber(fold: Fold, log: string): NextNumber {
  const used = usedNumbers(fold);
  const blocks = fold.of('numbers-taken').filter(({ payload }) => payload.prefix === TWIN_PREFIX);
  const ownerOf = (n: number) => blocks.find(({ payload }) => payload.first <= n && n <= payload.last)?.log;
  for (const block of blocks) {
    if (block.log !== log) continue;
    for (let n = block.payload.first; n <= block.payload.last; n++) {
      if (!used.has(n) && ownerOf(n) === log) return { text: numberToText(block.payload, n), take: null };
    }
  }
  const highest = Math.max(0, ...used, ...blocks.map(({ payload }) => payload.last));
  const first = Math.ceil(highest / BLOCK_SIZE) * BLOCK_SIZE + 1;
  const take = { prefix: TWIN_PREFIX, first, last: first + BLOCK_SIZE - 1, digits: TWIN_DIGITS };
  const before = blocks.findLast((block) => block.log === log)?.payload;
  const words = (block: Block) => `${numberToText(block, block.first)} to ${numberToText(block, block.last)}`;
  const spent = before ? { spent: { old: words(before), next: words(take) } } : {};
  return { text: numberToText(take, first), take, ...spent };
}

/** Number of a twin, or null for any other label. */
export function twinToNumber(text: string): number | null {
  const match = /^U-(\d{1,6})$/.exec(nameToKey(text));
  return match ? Number(match[1]) : null;
}

function usedNumbers(fold: Fold): Set<number> {
  const used = new Set<number>();
  const add = (text: string) => {
    const n = twinToNumber(text);
    if (n !== null) used.add(n);
  };
  for (const { payload } of fold.of('label-put')) add(payload.text);
  for (const text of fold.unknownTexts()) add(text);
  return used;
}

/** One cable with a temporary number. */
export interface Twin {
  text: string;
  /** Places where it stands now. */
  places: string[];
}

/** Every twin that stands somewhere, by number; one that was given twice is two. */
export function twinsOf(fold: Fold): Twin[] {
  const given = new Map(givenTwice(fold).map((one) => [nameToKey(one.text), one]));
  return [...fold.unknownTexts()]
    .filter((text) => twinToNumber(text) !== null)
    .flatMap((text): Twin[] => {
      const twice = given.get(nameToKey(text));
      return twice
        ? twice.givers.map(({ places }) => ({ text, places }))
        : [{ text, places: [...fold.placesOfUnknown(text)] }];
    })
    .filter(({ places }) => places.length > 0)
    .sort((a, b) => twinToNumber(a.text)! - twinToNumber(b.text)!);
}

export function givenTwice(fold: Fold): GivenTwice[] {
  return givenTwiceOf(fold, (text) => twinToNumber(text) !== null);
}

/** Labels that no plan knows and that stand at more than two places, or that two people gave. */
export function numberDiscrepancies(fold: Fold): Discrepancy[] {
  const given = givenTwice(fold);
  const twice = new Set(given.map(({ text }) => nameToKey(text)));
  const evidence = (places: readonly string[]) =>
    places.flatMap((place) => fold.stateAt(place).looks.map(({ event }) => event));
  return [
    ...given.map(({ text, givers }) => {
      const places = givers.flatMap((giver) => giver.places);
      return makeDiscrepancy('duplicate-label', 'undecided', places, [text], evidence(places), {
        found: text,
        given: givers
          .map(
            ({ author, at, places: mine }) => `${author}, ${at}, ${mine.map((one) => fold.wordsOf(one)).join(' and ')}`,
          )
          .join('; '),
      });
    }),
    ...[...fold.unknownTexts()].flatMap((text): Discrepancy[] => {
      const places = [...fold.placesOfUnknown(text)];
      if (places.length < 3 || twice.has(nameToKey(text))) return [];
      return [makeDiscrepancy('duplicate-label', 'undecided', places, [text], evidence(places), { found: text })];
    }),
  ];
}

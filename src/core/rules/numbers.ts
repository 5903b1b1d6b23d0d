// Temporary numbers for cables without a label: blocks that one log alone gives out, twins that wait for their other
// end, and numbers that two people gave all the same. Derived from the record; free of order.
//
// Limits: Two phones that each began a first audit without knowing of the other both count up from 1.

import type { PlaceId } from '../plan/identity.ts';
import type { EventOf } from '../record/events.ts';
import { nameToKey } from '../trade/names.ts';
import { type Discrepancy, makeDiscrepancy } from './discrepancy.ts';
import { type DuplicateNumber, duplicateNumbersOf } from './duplicateNumbers.ts';
import { fingerprint } from './fingerprints.ts';
import type { Fold } from './foldView.ts';

/** Letters in front of a temporary number; the pre-printed strips bear them too. */
export const TWIN_PREFIX = 'U-';
export const BLOCK_SIZE = 50;
export const TWIN_DIGITS = 3;
/** Below it the blocks of the log that founded the first audit, and strips; from it on the blocks of all other logs. */
const FAR_FIRST = 10_001;
const FAR_BLOCKS = 1_799;

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
 * The lowest number of this log's blocks, the one taken last before the others, that nobody has put or read.
 * What is in two blocks belongs to the log that took it first.
 *
 * Where a new block is due, the log that founded the station's first audit counts up from 1. Any other begins at one of
 * 1,799 blocks of five digits that follows from its id, so that logs which never met hardly ever take the same: two of
 * them with a chance of 1 in 1,799; one pair of five, beside the founder, with 1 in 180; one pair of ten with 1 in 40
 * (k(k - 1) / 2 pairs). Blocks known to be taken are passed over.
 * @param others What is known from the station's other audits: a number is on one cable of the whole station.
 */
export function nextNumber(fold: Fold, log: string, others: readonly Fold[] = []): NextNumber {
  const folds = [fold, ...others.filter((other) => other !== fold)];
  const used = new Set(folds.flatMap((one) => [...usedNumbers(one)]));
  const blocks = blocksOf(folds);
  const ownerOf = (n: number) => blocks.find(({ payload }) => payload.first <= n && n <= payload.last)?.log;
  const own = blocks.filter((block) => block.log === log);
  for (const { payload } of [...own].reverse()) {
    for (let n = payload.first; n <= payload.last; n++) {
      if (!used.has(n) && ownerOf(n) === log) return { text: numberToText(payload, n), take: null };
    }
  }
  const first = newBlock(folds, log, used, blocks);
  const take = { prefix: TWIN_PREFIX, first, last: first + BLOCK_SIZE - 1, digits: TWIN_DIGITS };
  const before = own.at(-1)?.payload;
  const spent = before ? { spent: { old: blockToWords(before), next: blockToWords(take) } } : {};
  return { text: numberToText(take, first), take, ...spent };
}

/** `U-351 to U-400`. */
export function blockToWords(block: Block): string {
  return `${numberToText(block, block.first)} to ${numberToText(block, block.last)}`;
}

/** Blocks of temporary numbers in the order in which they were taken. */
export function blocksOf(folds: readonly Fold[]): EventOf<'numbers-taken'>[] {
  return folds
    .flatMap((one) => one.of('numbers-taken').filter(({ payload }) => payload.prefix === TWIN_PREFIX))
    .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
}

/** First number of a block that nobody known has taken or used a number of. */
function newBlock(
  folds: readonly Fold[],
  log: string,
  used: ReadonlySet<number>,
  blocks: readonly { payload: Block }[],
): number {
  const known = [...used, ...blocks.map(({ payload }) => payload.last)];
  const above = (floor: number) => Math.ceil(floor / BLOCK_SIZE) * BLOCK_SIZE + 1;
  const founders = folds.flatMap(({ started }) => started ?? []);
  const [founder] = founders.sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
  const near = above(Math.max(0, ...known.filter((n) => n < FAR_FIRST)));
  if (founder?.log === log && near < FAR_FIRST) return near;
  for (let attempt = 0; attempt < FAR_BLOCKS; attempt++) {
    const sum = Number.parseInt(fingerprint(`${log} ${attempt}`), 16);
    const first = FAR_FIRST + (sum % FAR_BLOCKS) * BLOCK_SIZE;
    const last = first + BLOCK_SIZE - 1;
    const free = blocks.every(({ payload }) => payload.last < first || last < payload.first);
    if (free && ![...used].some((n) => first <= n && n <= last)) return first;
  }
  return above(Math.max(FAR_FIRST, ...known));
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
interface Twin {
  text: string;
  /** Places where it stands now. */
  places: PlaceId[];
}

/** Every twin that stands somewhere, by number; one that was given twice is two. */
export function twinsOf(fold: Fold): Twin[] {
  const given = new Map(duplicateNumbers(fold).map((one) => [nameToKey(one.text), one]));
  return [...fold.unknownTexts()]
    .filter((text) => twinToNumber(text) !== null)
    .flatMap((text): Twin[] => {
      const twice = given.get(nameToKey(text));
      return twice
        ? twice.issuers.map(({ places }) => ({ text, places }))
        : [{ text, places: [...fold.placesOfUnknown(text)] }];
    })
    .filter(({ places }) => places.length > 0)
    .sort((a, b) => twinToNumber(a.text)! - twinToNumber(b.text)!);
}

export function duplicateNumbers(fold: Fold): DuplicateNumber[] {
  return duplicateNumbersOf(fold, (text) => twinToNumber(text) !== null);
}

/** Labels that no plan knows and that stand at more than two places, or that two people gave. */
export function numberDiscrepancies(fold: Fold): Discrepancy[] {
  const given = duplicateNumbers(fold);
  const twice = new Set(given.map(({ text }) => nameToKey(text)));
  const evidence = (places: readonly PlaceId[]) =>
    places.flatMap((place) => fold.stateAt(place).looks.map(({ event }) => event));
  return [
    ...given.map(({ text, issuers }) => {
      const places = issuers.flatMap((giver) => giver.places);
      const finding = { kind: 'duplicate-label', found: text, given: issuers } as const;
      return makeDiscrepancy(finding, 'undecided', places, [text], evidence(places));
    }),
    ...[...fold.unknownTexts()].flatMap((text): Discrepancy[] => {
      const places = [...fold.placesOfUnknown(text)];
      if (places.length < 3 || twice.has(nameToKey(text))) return [];
      const finding = { kind: 'duplicate-label', found: text } as const;
      return [makeDiscrepancy(finding, 'undecided', places, [text], evidence(places))];
    }),
  ];
}

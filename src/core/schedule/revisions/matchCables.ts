// Which cable of a newer sheet is which of the plan in force? By number and an end, then by both ends, then by number.
// Where several could be meant, the most alike are taken; the order of the rows never decides.

import type { Cable, CableEnd } from '../../plan/model.ts';
import { nameToKey } from '../../trade/names.ts';
import { groupBy } from './groups.ts';

interface Known {
  cable: Cable;
  number: string;
  ends: string[];
}

/**
 * @param next Cables whose places bear the ids of the old plan already.
 * @returns id of the newer sheet to the one it keeps.
 */
export function matchCables(old: readonly Cable[], next: readonly Cable[]): Map<string, string> {
  const ids = new Map<string, string>();
  const taken = new Set<string>();
  const [before, after] = [old.map(toKnown), next.map(toKnown)];
  const numberAndEnd = (one: Known) => one.ends.map((end) => `${one.number}\n${end}`);
  pair((one) => (one.number === '' ? [] : numberAndEnd(one)));
  pair((one) => bothEnds(one.ends));
  pair((one) => (one.number === '' ? [] : [one.number]));
  // A cable without a number is known by an end alone.
  pair((one) => (one.number === '' ? numberAndEnd(one) : []));
  return ids;

  function pair(keys: (one: Known) => string[]): void {
    const byKey = new Map<string, Known[]>();
    for (const one of before) {
      if (taken.has(one.cable.id)) continue;
      for (const key of new Set(keys(one))) {
        const list = byKey.get(key);
        if (list) list.push(one);
        else byKey.set(key, [one]);
      }
    }
    const wanted = after.filter(({ cable }) => !ids.has(cable.id));
    const claims: { one: Known; was: Known }[] = [];
    for (const one of wanted) {
      const candidates = new Set(keys(one).flatMap((key) => byKey.get(key) ?? []));
      for (const was of candidates) claims.push({ one, was });
    }
    take(claims);
  }

  /** Most ends in common first, then the most alike. */
  function take(claims: readonly { one: Known; was: Known }[]): void {
    const alone = groupBy(claims, ({ was }) => was.cable.id);
    const byNew = groupBy(claims, ({ one }) => one.cable.id);
    const open: (typeof claims)[number][] = [];
    for (const claim of claims) {
      const { one, was } = claim;
      if (alone.get(was.cable.id)?.length === 1 && byNew.get(one.cable.id)?.length === 1) keep(claim);
      else open.push(claim);
    }
    const ranked = open.map((claim) => ({ claim, ...rank(claim.one, claim.was) }));
    ranked.sort(
      (a, b) =>
        b.common - a.common ||
        b.alike - a.alike ||
        compare(a.claim.was.cable.id, b.claim.was.cable.id) ||
        compare(a.content, b.content),
    );
    for (const { claim } of ranked) keep(claim);
  }

  function keep({ one, was }: { one: Known; was: Known }): void {
    if (ids.has(one.cable.id) || taken.has(was.cable.id)) return;
    ids.set(one.cable.id, was.cable.id);
    taken.add(was.cable.id);
  }
}

function toKnown(cable: Cable): Known {
  return { cable, number: nameToKey(cable.label), ends: cable.ends.map(endKey).filter((end) => end !== '') };
}

/** An end that the sheet leaves open is known by its words; without any it is not known. */
function endKey(end: CableEnd): string {
  if (end.place !== null) return end.place;
  return end.unit === '' && end.jack === '' ? '' : `?${nameToKey(end.unit)}/${nameToKey(end.jack)}`;
}

/** One key for all ends together; none where fewer than two are known, or none of them is a jack. */
function bothEnds(ends: readonly string[]): string[] {
  if (ends.length < 2 || ends.every((end) => end.startsWith('?'))) return [];
  return [[...ends].sort().join('\n')];
}

function rank(one: Known, was: Known) {
  const ends = new Set(was.ends);
  const [a, b] = [facts(one.cable), facts(was.cable)];
  return {
    common: one.ends.filter((end) => ends.has(end)).length,
    alike: a.filter((fact, i) => fact === b[i]).length,
    content: JSON.stringify([a, one.ends]),
  };
}

function facts(cable: Cable): string[] {
  const { label, circuit, type, length, signalText, leg, notes, status } = cable;
  return [label, circuit, type, length, signalText, leg, notes, status].map((fact) => fact ?? '');
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

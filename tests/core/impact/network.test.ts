// What a network loses with a lead: held against the plain definition, worked out by walking everything, on random small
// networks of units, panels and switches. Made-up networks, no outside source.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Link, type Links, plannedLinks } from '../../../src/core/impact/links.ts';
import { networkOf } from '../../../src/core/impact/network.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { type CableRow, planOf, started, withSignal } from '../record/build.ts';

const UNITS = ['A', 'B', 'C', 'D', 'E', 'F', 'PP'];
/** Leads between two units; PP is a panel, whose holes have a front and a rear. */
const networks = fc
  .array(fc.tuple(fc.nat(UNITS.length - 1), fc.nat(UNITS.length - 1)), { minLength: 1, maxLength: 12, size: 'max' })
  .map((pairs) =>
    pairs.map(([a, b], i): CableRow => {
      const at = (unit: string, side: string) => (unit === 'PP' ? `PP ${1 + (i % 3)} ${side}` : `${unit} ${side}${i}`);
      return [`C${i}`, at(UNITS[a]!, 'front'), at(UNITS[b]!, 'rear'), withSignal('network')];
    }),
  );

const nodeOf = (place: string) => {
  const [unit = '', jack = ''] = place.split('/');
  return unit === 'PP' ? `PP/${jack.replace(/-(FRONT|REAR)$/, '')}` : unit;
};
const isHole = (node: string) => node.includes('/');

function plainly(links: Links, opened: readonly Link[]) {
  const ends = (link: Link) => [nodeOf(link.from), nodeOf(link.to)] as [string, string];
  const degree = (node: string) => links.all.flatMap(ends).filter((one) => one === node).length;
  const isSwitch = (node: string) => !isHole(node) && degree(node) >= 3;
  const rest = links.all.filter((link) => !opened.includes(link)).map(ends);
  const reached = (start: string, passes: (node: string) => boolean) => {
    const part = new Set([start]);
    for (const node of part) {
      if (node !== start && !passes(node)) continue;
      for (const [a, b] of rest) {
        if (a === node) part.add(b);
        if (b === node) part.add(a);
      }
    }
    return [...part];
  };
  const cutOff = new Set<string>();
  let [closesByRing, isUplink] = [false, false];
  for (const link of opened) {
    const sides = ends(link);
    const isFeeding = (node: string) => (isHole(node) ? reached(node, isHole) : [node]).some(isSwitch);
    isUplink ||= sides.every(isFeeding);
    const parts = sides.map((node) => reached(node, (one) => isHole(one) || isSwitch(one)));
    if (parts[0]!.includes(sides[1])) {
      closesByRing = true;
      continue;
    }
    const [a, b] = parts.map((part) => part.filter((node) => !isHole(node))) as [string[], string[]];
    const lost = a.length === b.length ? [...a, ...b] : a.length < b.length ? a : b;
    for (const unit of lost) if (!isSwitch(unit) || lost.length > 1) cutOff.add(unit);
  }
  return { cutOff: [...cutOff].sort(), closesByRing, isUplink };
}

describe('what a network loses', () => {
  it('is what walking through all of it finds, for one lead and for several at once', () => {
    let [rings, cut] = [0, 0];
    fc.assert(
      fc.property(networks, fc.array(fc.nat(11), { minLength: 1, maxLength: 3 }), (rows, picks) => {
        const plan = planOf(rows);
        const units = plan.units.map((unit) => (unit.id === 'PP' ? { ...unit, form: 'panel' as const } : unit));
        const fold = foldAll({ ...plan, units }, [started()]);
        const links = plannedLinks(fold);
        const opened = [...new Set(picks.map((i) => links.all[i % links.all.length]!))];
        const found = networkOf(fold.index, links, opened);
        expect(found).toEqual(plainly(links, opened));
        if (found?.closesByRing) rings += 1;
        if (found && found.cutOff.length > 0) cut += 1;
      }),
      { numRuns: 400 },
    );
    expect(rings).toBeGreaterThan(40);
    expect(cut).toBeGreaterThan(40);
  });
});

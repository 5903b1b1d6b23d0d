// Circuits of the plan, and what other lists say about cables that the cable list knows already: checked against it,
// never put over it.
import { unitOf } from '../../plan/identity.ts';
import type { Cable, Circuit, Jack } from '../../plan/model.ts';
import { nameToKey } from '../../trade/names.ts';
import type { Notebook, RawCircuit, RawJack } from '../rows/readTypes.ts';

/** Gives each named cable its circuit, where the cable list gave it none. */
export function buildCircuits(raws: readonly RawCircuit[], cables: readonly Cable[], notebook: Notebook): Circuit[] {
  const byNumber = groupByNumber(cables);
  return raws.map((raw): Circuit => {
    const hops = raw.hops.map((hop) => {
      const [only, ...others] = byNumber.get(nameToKey(hop)) ?? [];
      if (!only || others.length > 0) {
        const question = only
          ? 'Several cables have this number. Which one is it?'
          : 'No list has a cable with this number.';
        notebook.ask('circuit', raw.sheet, raw.row, raw.column, hop, question);
        return hop;
      }
      if (only.circuit === undefined) only.circuit = raw.name;
      else if (nameToKey(only.circuit) !== nameToKey(raw.name)) {
        notebook.ask(
          'circuit',
          raw.sheet,
          raw.row,
          raw.column,
          hop,
          `The cable list calls its circuit ${only.circuit}. Which is right?`,
        );
      }
      return only.label;
    });
    return {
      name: raw.name,
      ...(raw.role ? { role: raw.role } : {}),
      ...(raw.carrier === '' ? {} : { carrier: raw.carrier }),
      hops,
      ...(raw.notes === '' ? {} : { notes: raw.notes }),
      origin: { sheet: raw.sheet, row: raw.row },
    };
  });
}

/** A list of jacks may name the cable behind each: asked about where the cable list puts it elsewhere. */
export function checkLandings(
  rows: readonly { raw: RawJack; jack: Jack }[],
  cables: readonly Cable[],
  notebook: Notebook,
): void {
  const byNumber = groupByNumber(cables);
  for (const { raw, jack } of rows) {
    if (raw.cable === '') continue;
    const named = byNumber.get(nameToKey(raw.cable));
    // One end at a whole range of a block is at each of its pairs.
    const isHere = named?.some(({ ends }) => ends.some(({ place }) => place !== null && unitOf(place) === jack.unit));
    if (named && !isHere) {
      notebook.ask(
        'which-is-right',
        raw.sheet,
        raw.row,
        undefined,
        raw.cable,
        `The cable list has no end of it on ${raw.unit}. Which is right?`,
      );
    }
  }
}

function groupByNumber(cables: readonly Cable[]): Map<string, Cable[]> {
  const byNumber = new Map<string, Cable[]>();
  for (const cable of cables) {
    const key = nameToKey(cable.label);
    if (key === '') continue;
    const group = byNumber.get(key);
    if (group) group.push(cable);
    else byNumber.set(key, [cable]);
  }
  return byNumber;
}

// The sentences of the forms that describe: each one whole, so that it can be said in another order. No markup, no state.
import type { UnitSaid } from '../../core/record/described.ts';
import type { PartShape } from '../../core/trade/parts.ts';
import { count, list } from '../words.ts';
import type { UnitDraft, Where } from './describeDraft.ts';

/** Units that the plan has where another one was found. */
export function goneToQuestion(planned: readonly { label: string; u: number | null }[], u: number): string {
  const [one] = planned;
  return planned.length === 1 && one
    ? `The plan has ${one.label} at U${one.u ?? u}. Is it gone from there?`
    : `The plan has ${list(planned.map(({ label }) => label))} at these U. Are they gone from there?`;
}

/** Described units where another one is placed. */
export function takenToWords(units: readonly { label: string }[]): string {
  const names = list(units.map(({ label }) => label));
  return units.length === 1
    ? `${names} is there already, as described. Only one unit fits in a U on each side.`
    : `${names} are there already, as described. Only one unit fits in a U on each side.`;
}

/** Units that only the plan has where another one is placed. */
export function plannedToWords(units: readonly { label: string }[]): string {
  const names = list(units.map(({ label }) => label));
  return units.length === 1
    ? `In the plan ${names} is there; what you see counts.`
    : `In the plan ${names} are there; what you see counts.`;
}

/** "AIO21 at U30", "AIO21 in Studio 3": the unit that was saved, and where. */
export function keptUnitToWords(where: Where, { label, u, room, at }: UnitSaid): string {
  if (at !== undefined) return label;
  if (u !== undefined) return `${label} at U${u}`;
  switch (where.type) {
    case 'rack':
      return `${label} in ${where.rack.label}`;
    case 'missing':
      return `${label} in ${where.rack}`;
    case 'room':
      return room ? `${label} in ${room}` : `${label} in a room`;
  }
}

export type Wires = 'pairs' | 'fibres' | 'cores';
export type Landed = 'order' | 'dead' | 'spare' | 'good';

/** What is recorded of several landings by one act. @param own The order of colours is the station's. */
export function landingsToSentence(n: number, wires: Wires, cable: string, what: Landed, own: boolean): string {
  const these = `${count(n, 'landing holds', 'landings hold')} ${wires} of ${cable}`;
  const shown = 'A tester, a tone or a light showed that they are';
  switch (what) {
    case 'order':
      return `You record that ${these} in ${orderToWords(wires, own)}. This proves none of them: they stay open, and what is seen or followed counts more.`;
    case 'dead':
      return `You record that ${these}. ${shown} dead.`;
    case 'spare':
      return `You record that ${these}. They are spares.`;
    case 'good':
      return `You record that ${these}. ${shown} good. This replaces earlier entries on them.`;
  }
}

export function landingsToTitle(wires: Wires): string {
  return wires === 'pairs' ? 'Landed in colour order' : 'Landed in order';
}

/** What the button says that records it. */
export function landingsToAct(n: number, wires: Wires, what: Landed): string {
  if (n === 0) return 'Nothing chosen';
  switch (what) {
    case 'order':
      return wires === 'pairs' ? `Record ${n} landed by colour` : `Record ${n} landed in order`;
    case 'dead':
      return `Record ${n} dead`;
    case 'spare':
      return `Record ${n} spare`;
    case 'good':
      return `Record ${n} good`;
  }
}

/** What was recorded of the wires `from` to `to`: its name for Undo, and the line that says so. */
export function landingsToLine(
  cable: string,
  from: number,
  to: number,
  what: Exclude<Landed, 'order'>,
): [name: string, line: string] {
  const those = from === to ? `${cable} ${from}` : `${cable} ${from} to ${to}`;
  return [`${those} ${what}`, `${those}: ${what}.`];
}

const ONE = { pairs: 'Pair', fibres: 'Fibre', cores: 'Core' } as const;
/** "Pair 7, dead: white with brown". @param colours None before the order of colours is known. */
export function wireToLine(
  wires: Wires,
  wire: number,
  fate: string | null,
  colours: ((wire: number) => { tip: string; ring: string }) | null,
): string {
  const name = fate === null ? `${ONE[wires]} ${wire}` : `${ONE[wires]} ${wire}, ${fate}`;
  if (wires !== 'pairs' || !colours) return name;
  const { tip, ring } = colours(wire);
  return `${name}: ${tip} with ${ring}`;
}

function orderToWords(wires: Wires, own: boolean): string {
  if (wires !== 'pairs') return 'the standard order';
  return own ? 'the station’s order of colours' : 'the standard order of colours';
}

/** A common adapter or tail in a list: what it asks, whether it fits the jack in hand, its legs. */
export function shapeToLine({ sockets, tails }: PartShape, fits: boolean): string {
  const legs = [...sockets, ...tails].map(({ label }) => label);
  const names = legs.length > 3 ? `${legs[0]} to ${legs.at(-1)}` : legs.join(', ');
  return [
    ...(tails.length > 0 ? ['Asks where its tails go.'] : []),
    ...(fits ? ['Its plug fits this jack.'] : []),
    legs.length === 1 ? `Leg ${names}.` : `Legs ${names}.`,
  ].join(' ');
}

/** An adapter, tail, strip or supply without a label is named after its jack. */
export function unlabelledHint(name: string): string {
  return `If it has none, leave this blank. It is then called ${name}.`;
}

export function notSaved(why: string): string {
  return `Not saved: ${why}`;
}

/** The rows of a face from the top, each by its first and last jack. */
export function faceToWords(rows: readonly (readonly string[])[], face: 'front' | 'rear'): string {
  const row = (jacks: readonly string[]) => (jacks.length > 1 ? `${jacks[0]} to ${jacks.at(-1)}` : `${jacks[0]}`);
  const names = rows.map(row).join(' over ');
  return face === 'front' ? `${names}, front, from the left.` : `${names}, rear, from the left.`;
}

/** "Add 8 × XLR in": what the button does with a group of like jacks. */
export function groupToAct({ count: n, connector, direction }: UnitDraft['group']): string {
  switch (direction) {
    case 'in':
      return `Add ${n} × ${connector} in`;
    case 'out':
      return `Add ${n} × ${connector} out`;
    case '':
      return `Add ${n} × ${connector}`;
  }
}

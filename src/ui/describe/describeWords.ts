// The sentences of the forms that describe: each one whole, so that it can be said in another order. No markup, no state.
import { count } from '../words.ts';

/** Units that the plan has where another one was found. */
export function goneToQuestion(names: string, at: string, many: boolean): string {
  return many
    ? `The plan has ${names} at ${at}. Are they gone from there?`
    : `The plan has ${names} at ${at}. Is it gone from there?`;
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

function orderToWords(wires: Wires, own: boolean): string {
  if (wires !== 'pairs') return 'the standard order';
  return own ? 'the station’s order of colours' : 'the standard order of colours';
}

/** An adapter, tail, strip or supply without a label is named after its jack. */
export function unlabelledHint(name: string): string {
  return `If it has none, leave this blank. It is then called ${name}.`;
}

export function notSaved(why: string): string {
  return `Not saved: ${why}`;
}

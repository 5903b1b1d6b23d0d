// What an engineer reads of a tidy cable, in the form that the judge of sheets compares.
import type { Signal } from '../../../src/core/trade/kinds.ts';
import type { Wanted } from '../sheets/fixture.ts';
import type { TidyCable } from './tidy.ts';

export type { Wanted };

const SIGNALS: Readonly<Record<string, Signal>> = { Enet: 'network', AES: 'aes3', 'Ana st': 'line-audio' };

/** A cable with the status `spare` has no to end. */
export function wantedOf(sheet: string, row: number, cable: TidyCable): Wanted {
  const { label, from, to, signal, length, status } = cable;
  const end = ({ unit, jack }: TidyCable['from']) => ({ unit: [unit.label], jack: [jack] });
  return {
    sheet,
    row,
    label: [label],
    isOptional: false,
    ends: [end(from), status === 'spare' ? null : end(to)],
    signal: SIGNALS[signal]!,
    status: status === 'spare' ? 'spare' : 'in-use',
    onAir: false,
    length,
  };
}

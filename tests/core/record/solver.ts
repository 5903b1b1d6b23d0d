// A reference beside our own choosers: the integer programming solver HiGHS (J. A. J. Hall and others, University of
// Edinburgh), asked in the LP text format. Knows nothing of causes.
import loadHighs from 'highs';

const highs = await loadHighs();

export interface Term {
  name: string;
  by: number;
}
interface Programme {
  /** Each variable is 0 or 1; the sum of its costs is to be least. */
  costs: Term[];
  rows: { terms: Term[]; relation: '>=' | '<=' | '='; than: number }[];
}

export function solve({ costs, rows }: Programme): { cost: number; taken: string[] } {
  const sum = (terms: readonly Term[]) =>
    terms.map(({ name, by }) => `${by < 0 ? '-' : '+'} ${Math.abs(by)} ${name}`).join('\n ');
  const text = [
    'Minimize',
    ` obj: ${sum(costs)}`,
    'Subject To',
    ...rows.map(({ terms, relation, than }, i) => ` r${i}: ${sum(terms)} ${relation} ${than}`),
    'Binary',
    ...costs.map(({ name }) => ` ${name}`),
    'End',
  ].join('\n');
  const found = highs.solve(text, { mip_rel_gap: 0 });
  if (found.Status !== 'Optimal') throw new Error(`The solver says ${found.Status}.`);
  const taken = costs.map(({ name }) => name).filter((name) => (found.Columns[name]?.Primal ?? 0) > 0.5);
  return { cost: found.ObjectiveValue, taken };
}

// A random tidy plan written with any three habits at once, or with rows of another shape, is read as an engineer reads
// it, or asked about: never wrong without a word.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeTables } from '../sheets/judge.ts';
import { LAYERS, layToTable } from './layers.ts';
import { SHAPES } from './shapes.ts';
import { tidyPlan } from './tidy.ts';

/** Shapes that are read wrong without a word today. May only get shorter. */
const WRONG_SHAPES: readonly string[] = ['a counter in front', 'the far end first'];

const three = fc.uniqueArray(fc.nat(LAYERS.length - 1), { minLength: 3, maxLength: 3 });

describe('any three habits at once', () => {
  it('are read right or asked about', () => {
    let right = 0;
    const runs = 200;
    fc.assert(
      fc.property(tidyPlan, three, (tidy, picked) => {
        const layers = picked.map((i) => LAYERS[i]!);
        const { tables, wanted, anyOrder } = layToTable(tidy, layers);
        const { verdict, wrong } = judgeTables(tables, wanted, anyOrder);
        if (verdict === 'right') right += 1;
        expect({ names: layers.map(({ name }) => name), wrong }).toMatchObject({ wrong: [] });
        expect(verdict).not.toBe('refused');
      }),
      { numRuns: runs },
    );
    // Asking about everything would be right always, and of no use.
    expect(right).toBeGreaterThan(runs / 2);
  });

  it.each(LAYERS.map((layer) => [layer.name, layer] as const))('and each by itself: %s', (_, layer) => {
    fc.assert(
      fc.property(tidyPlan, (tidy) => {
        const { tables, wanted, anyOrder } = layToTable(tidy, [layer]);
        expect(judgeTables(tables, wanted, anyOrder)).toMatchObject({ verdict: 'right', wrong: [] });
      }),
      { numRuns: 30 },
    );
  });
});

describe('whatever a row stands for', () => {
  it.each(SHAPES.map((shape) => [shape.name, shape] as const))('%s', (name, shape) => {
    const check = () =>
      fc.assert(
        fc.property(tidyPlan, (tidy) => {
          const { tables, wanted, anyOrder } = shape.write(tidy);
          expect(judgeTables(tables, wanted, anyOrder).wrong).toEqual([]);
        }),
        { numRuns: 60 },
      );
    if (WRONG_SHAPES.includes(name)) expect(check, `${name} is no longer wrong: take it off the list`).toThrow();
    else check();
  });
});

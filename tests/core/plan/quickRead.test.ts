// The quick reading of data against zod itself: the same answer, key for key, for data that fits, that is spoilt in one
// place, and for every schema of a plan and of an event.
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { planSchema, readPlanData } from '../../../src/core/plan/model.ts';
import { quickReader } from '../../../src/core/plan/quickRead.ts';
import { createFacility } from '../../bench/benchFacility.ts';

const inner = z.object({ a: z.string(), b: z.optional(z.number()), c: z.nullable(z.boolean()) });
const schema = z.object({
  kind: z.enum(['x', 'y']),
  version: z.literal(1),
  list: z.array(inner),
  words: z.optional(z.string().check(z.minLength(2))),
  deep: z.optional(z.array(z.array(z.string()))),
  any: z.unknown(),
  either: z.optional(z.union([z.string(), z.number()])),
  bounded: z.optional(z.number().check(z.minimum(0), z.maximum(9), z.multipleOf(1))),
  open: z.optional(z.number().check(z.gt(0))),
});

const good = fc.record(
  {
    kind: fc.constantFrom('x', 'y'),
    version: fc.constant(1),
    list: fc.array(
      fc.record(
        { a: fc.string(), b: fc.integer(), c: fc.oneof(fc.boolean(), fc.constant(null)) },
        { requiredKeys: ['a', 'c'] },
      ),
    ),
    words: fc.string({ minLength: 2 }),
    deep: fc.array(fc.array(fc.string())),
    any: fc.jsonValue(),
    either: fc.oneof(fc.string(), fc.integer()),
    bounded: fc.oneof(fc.integer({ min: 0, max: 9 }), fc.integer({ min: -2, max: 11 }), fc.double()),
    open: fc.oneof(fc.integer({ min: -2, max: 11 }), fc.double()),
  },
  { requiredKeys: ['kind', 'version', 'list', 'any'] },
);

/** Puts a value in the place of one that is there, a key more, a key less, or the keys in another order. */
function spoil(value: unknown, pick: number, how: number, by: unknown): unknown {
  if (typeof value !== 'object' || value === null) return by;
  const keys = Object.keys(value);
  if (Array.isArray(value)) {
    if (value.length === 0) return [by];
    const at = pick % value.length;
    return value.map((one, i) => (i === at ? spoil(one, Math.floor(pick / 7), how, by) : one));
  }
  const entries = Object.entries(value);
  if (how === 0) return Object.fromEntries([...entries, ['extra', by]]);
  if (how === 1) return Object.fromEntries([...entries].reverse());
  const key = keys[pick % keys.length]!;
  if (how === 2) return Object.fromEntries(entries.filter(([name]) => name !== key));
  return Object.fromEntries(
    entries.map(([name, one]) => [name, name === key ? spoil(one, Math.floor(pick / 7), how, by) : one]),
  );
}

function same(read: (value: unknown) => unknown, by: z.ZodMiniType, text: string): void {
  const [ours, theirs] = [read(JSON.parse(text)), z.safeParse(by, JSON.parse(text))] as {
    success: boolean;
    data?: unknown;
    error?: { issues: unknown };
  }[];
  expect(ours!.success).toBe(theirs!.success);
  expect(JSON.stringify(ours!.data)).toBe(JSON.stringify(theirs!.data));
  expect(ours!.error?.issues).toEqual(theirs!.error?.issues);
}

describe('reading by a schema', () => {
  const read = quickReader(schema);

  it('takes what fits as it is, without making it anew', () => {
    const value = { kind: 'x', version: 1, list: [{ a: 'P03', c: null }], any: 3 };
    const answer = read(value);
    expect(answer.success && answer.data).toBe(value);
  });

  it('answers as zod does, whatever comes', () => {
    fc.assert(fc.property(fc.jsonValue(), (value) => same(read, schema, JSON.stringify(value))));
    fc.assert(
      fc.property(good, fc.nat(), fc.nat({ max: 3 }), fc.jsonValue(), (value, pick, how, by) => {
        same(read, schema, JSON.stringify(value));
        same(read, schema, JSON.stringify(spoil(value, pick, how, by)));
      }),
    );
  });

  it('keeps hostile keys out', () => {
    const text =
      '{"kind":"x","version":1,"list":[{"__proto__":{"b":"no"},"a":"P","c":true}],"any":null,"constructor":1}';
    same(read, schema, text);
    const answer = read(JSON.parse(text));
    expect(answer.success && Object.getPrototypeOf(answer.data.list[0])).toBe(Object.prototype);
  });

  it('takes no number that is none', () => {
    same(read, schema, '{"kind":"x","version":1,"list":[{"a":"P","b":1e999,"c":true}],"any":null}');
  });

  it('reads a plan as zod does, spoilt in one place or not', () => {
    const { plan } = createFacility(20);
    expect(JSON.stringify(plan)).not.toBe(JSON.stringify(z.parse(planSchema, plan)));
    fc.assert(
      fc.property(fc.nat(), fc.nat({ max: 3 }), fc.jsonValue(), (pick, how, by) => {
        same(readPlanData, planSchema, JSON.stringify(plan));
        same(readPlanData, planSchema, JSON.stringify(spoil(plan, pick, how, by)));
      }),
      { numRuns: 50 },
    );
  });
});

// The forms of what is kept at the desk: schedules being settled, lists of names, strips that were printed.
import * as z from 'zod/mini';
import { draftKind } from './draftKind.ts';

const columns = z.nullable(z.array(z.object({ column: z.number(), meaning: z.string() })));
const kind = z.nullable(z.enum(['cables', 'units', 'jacks', 'racks', 'circuits']));

const like = z.object({
  filled: z.array(z.number()),
  remark: z.nullable(z.enum(['sum', 'signature', 'legend', 'reserved'])),
  first: z.nullable(z.string()),
});

const answers = z.object({
  mappings: z.array(z.object({ sheet: z.string(), kind, headerRow: z.number(), columns })),
  cells: z.array(
    z.object({
      sheet: z.string(),
      column: z.number(),
      row: z.nullable(z.number()),
      said: z.string(),
      also: z.optional(z.array(z.string())),
      as: z.enum(['typed', 'literal']),
      text: z.string(),
    }),
  ),
  left: z.optional(z.array(z.object({ sheet: z.string(), from: z.number(), to: z.number(), like: z.nullable(like) }))),
  fixed: z.optional(
    z.array(z.object({ sheet: z.string(), headerRow: z.number(), meaning: z.string(), text: z.string() })),
  ),
  unused: z.optional(z.array(z.string())),
  gone: z.optional(
    z.array(z.object({ sheet: z.string(), style: z.string(), as: z.enum(['removed', 'spare', 'future', 'in-use']) })),
  ),
});

/** Version 2 keeps rows that are no item, values of a whole list and sheets that are not used. */
const SHEETS = 2;
export const BRING_IN = draftKind(
  z.object({ sha256: z.string(), file: z.string(), answers, accepted: z.string(), at: z.number() }),
  undefined,
  SHEETS,
);
export const SHAPES = draftKind(
  z.array(
    z.object({
      key: z.string(),
      kind,
      columns,
      asFound: z.optional(z.boolean()),
      fixed: z.optional(z.array(z.object({ meaning: z.string(), text: z.string() }))),
      left: z.optional(z.array(like)),
      at: z.number(),
    }),
  ),
  undefined,
  SHEETS,
);
export const SETTLED = draftKind(z.array(z.object({ sha256: z.string(), answers })), undefined, SHEETS);

const readAs = z.object({ row: z.string(), said: z.string(), readAs: z.string() });
export const RENAMING = draftKind(
  z.object({
    source: z.enum(['sheet', 'paste', 'rule']),
    text: z.string(),
    rule: z.object({
      type: z.enum(['prefix', 'replace', 'add', 'pad']),
      only: z.string(),
      from: z.string(),
      to: z.string(),
      number: z.string(),
    }),
    read: z.nullable(
      z.object({
        pairs: z.array(z.object({ row: z.string(), old: z.string(), new: z.string() })),
        unread: z.array(z.object({ row: z.string(), said: z.string(), why: z.string() })),
        columns: z.array(z.object({ sheet: z.string(), old: z.string(), new: z.string(), header: z.boolean() })),
        blank: z.number(),
        guesses: z.array(readAs),
      }),
    ),
    name: z.string(),
    answers: z.record(z.string(), z.string()),
  }),
  { name: '', answers: {} },
);

export const STRIPS = draftKind(z.array(z.object({ first: z.number(), count: z.number(), at: z.number() })));

// The forms of what is kept at the desk: schedules being settled, lists of names, strips that were printed.
import * as z from 'zod/mini';
import { draftKind } from './draftKind.ts';

const columns = z.nullable(z.array(z.object({ column: z.number(), meaning: z.string() })));
const kind = z.nullable(z.enum(['cables', 'units', 'jacks', 'racks', 'circuits']));

const answers = z.object({
  mappings: z.array(z.object({ sheet: z.string(), kind, headerRow: z.number(), columns })),
  cells: z.array(
    z.object({
      sheet: z.string(),
      column: z.number(),
      row: z.nullable(z.number()),
      said: z.string(),
      as: z.enum(['typed', 'literal']),
      text: z.string(),
    }),
  ),
});

export const BRING_IN = draftKind(
  z.object({ sha256: z.string(), file: z.string(), answers, accepted: z.string(), at: z.number() }),
);
export const SHAPES = draftKind(z.array(z.object({ key: z.string(), kind, columns, at: z.number() })));
export const SETTLED = draftKind(z.array(z.object({ sha256: z.string(), answers })));

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

// The forms of what is typed while something is described: racks, units, parts at a jack, panels, leads, power, pairs.
import * as z from 'zod/mini';
import { unitDescribed } from '../../core/record/describedEvents.ts';
import { directionSchema, formSchema, legSchema, signalSchema } from '../../core/trade/kinds.ts';
import { NEW_UNIT } from '../describe/describeDraft.ts';
import { draftKind } from './draftKind.ts';

const side = z.enum(['front', 'rear']);

export const RACK = draftKind(
  z.object({
    label: z.string(),
    room: z.string(),
    heightU: z.string(),
    numbering: z.enum(['bottom-up', 'top-down']),
  }),
);

export const UNIT = draftKind(
  z.object({
    label: z.string(),
    rack: z.nullable(z.string()),
    room: z.string(),
    gap: z.number(),
    u: z.string(),
    heightU: z.number(),
    mounted: side,
    face: side,
    through: z.boolean(),
    notation: z.string(),
    rows: z.enum(['one', 'odd-over-even', 'one-after-the-other', 'kept']),
    rowCount: z.number(),
    description: z.string(),
    serial: z.string(),
    mac: z.string(),
    like: z.string(),
    from: z.nullable(z.omit(unitDescribed, { corrects: true })),
    group: z.object({
      count: z.number(),
      connector: z.string(),
      direction: z.enum(['in', 'out', '']),
      label: z.string(),
    }),
  }),
  NEW_UNIT,
);

const leg = z.object({
  kind: z.enum(['socket', 'tail']),
  label: z.string(),
  connector: z.string(),
  leg: z.exactOptional(legSchema),
  direction: z.exactOptional(directionSchema),
  signal: z.exactOptional(signalSchema),
  to: z.exactOptional(z.object({ place: z.string(), words: z.string() })),
  into: z.string(),
});
export const PART = draftKind(
  z.object({ form: formSchema, label: z.string(), plug: z.string(), legs: z.array(leg), building: z.boolean() }),
  { building: false },
);

export const PANEL = draftKind(
  z.object({
    form: z.enum(['panel', 'patchbay', 'punch-block', 'trunk']),
    label: z.string(),
    room: z.string(),
    rack: z.string(),
    u: z.string(),
    count: z.string(),
    rows: z.number(),
    connector: z.string(),
    wires: z.exactOptional(z.enum(['pairs', 'fibres', 'cores'])),
    sides: z.enum(['one', 'two']),
    first: z.string(),
    far: z.string(),
  }),
  { sides: 'one', wires: 'pairs', first: '', far: '' },
);

export const LEAD = draftKind(
  z.object({
    from: z.nullable(z.string()),
    to: z.nullable(z.string()),
    elsewhere: z.string(),
    basis: z.enum(['followed', 'seen']),
  }),
  { from: null, to: null, elsewhere: '', basis: 'followed' },
);

export const POWER = draftKind(
  z.object({
    kind: z.enum(['feed', 'strip', 'supply', 'cord']),
    label: z.string(),
    outlets: z.number(),
    into: z.string(),
    second: z.string(),
  }),
  { kind: 'strip', label: '', outlets: 8, into: '', second: '' },
);

export const COLOURS = draftKind(
  z.object({
    first: z.string(),
    last: z.string(),
    label: z.string(),
    here: z.string(),
    there: z.string(),
    what: z.enum(['order', 'dead', 'spare', 'good']),
  }),
  { first: '', last: '', label: '', here: '', there: '', what: 'order' },
);

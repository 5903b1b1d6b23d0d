// The forms of what a walk keeps on this phone: where it stood and what can be undone, a row half chosen, the way it goes,
// a photo or voice note that was begun. What they mean is the walk's own.
import * as z from 'zod/mini';
import { payloads, STATES } from '../../core/record/events.ts';
import { draftKind } from './draftKind.ts';

const by = z.enum(['camera', 'wedge', 'typed', 'tapped', 'still', 'double']);
const texts = z.array(z.string());
const looks = z.array(z.object({ event: z.string(), places: texts }));

const again = z.discriminatedUnion('kind', [
  z.object({ instead: z.string(), kind: z.literal('sighting'), payload: payloads.sighting }),
  z.object({ instead: z.string(), kind: z.literal('note'), payload: payloads.note }),
  z.object({ instead: z.string(), kind: z.literal('photo'), payload: payloads.photo }),
  z.object({ instead: z.string(), kind: z.literal('voice-note'), payload: payloads['voice-note'] }),
  z.object({ instead: z.string(), kind: z.literal('hazard-seen'), payload: payloads['hazard-seen'] }),
  z.object({ instead: z.string(), kind: z.literal('jacket-read'), payload: payloads['jacket-read'] }),
]);

const act = z.object({
  event: z.string(),
  kind: z.enum(['sighting', 'note', 'hazard', 'photo', 'label', 'slip', 'described']),
  places: texts,
  back: z.string(),
  words: z.string(),
  also: z.exactOptional(texts),
  took: z.exactOptional(looks),
  by: z.exactOptional(z.string()),
  again: z.exactOptional(z.array(again)),
});

const visit = z.object({ unit: z.string(), looks });

const of = z.exactOptional(payloads.sighting);

/** Questions on which something waits that was said already. */
const asked = z.discriminatedUnion('type', [
  z.object({
    type: z.literal('candidates'),
    text: z.string(),
    by,
    of,
    candidates: z.array(
      z.object({
        id: z.string(),
        label: z.string(),
        line: z.string(),
        type: z.exactOptional(z.enum(['cable', 'unit', 'rack', 'jack'])),
      }),
    ),
  }),
  z.object({
    type: z.literal('near'),
    text: z.string(),
    by,
    of,
    near: z.array(z.object({ label: z.string(), line: z.string() })),
  }),
  z.object({ type: z.literal('unlikely'), text: z.string(), by, length: z.number() }),
  z.object({
    type: z.literal('earlier'),
    sighting: payloads.sighting,
    earlier: z.array(
      z.object({
        event: z.string(),
        author: z.string(),
        at: z.number(),
        label: z.nullable(z.string()),
        state: z.enum(STATES),
        place: z.exactOptional(z.string()),
        said: z.exactOptional(z.string()),
      }),
    ),
  }),
]);

/** An early build kept no more than the place. */
export const WALK = draftKind(
  z.object({
    place: z.nullable(z.string()),
    paused: z.boolean(),
    visit: z.nullable(visit),
    acts: z.array(act),
    first: z.exactOptional(z.nullable(z.object({ text: z.nullable(z.string()), by }))),
    cables: z.exactOptional(z.nullable(z.string())),
    notNow: z.exactOptional(texts),
    asked: z.exactOptional(z.nullable(asked)),
    worked: z.exactOptional(texts),
    at: z.number(),
  }),
  { place: null, paused: false, visit: null, acts: [], at: 0 },
);

export const RANGE = draftKind(
  z.object({
    unit: z.string(),
    range: z.object({ first: z.nullable(z.string()), last: z.nullable(z.string()), without: texts }),
    state: z.enum(['empty', 'unlabelled', 'not-visible']),
  }),
);

export const WAY = draftKind(
  z.object({
    racks: z.enum(['rising', 'falling']),
    sides: z.enum(['front-first', 'rear-first']),
    units: z.enum(['top-down', 'bottom-up']),
    jacks: z.enum(['left-right', 'right-left']),
    rows: z.enum(['columns', 'rows']),
    along: z.enum(['jacks', 'cables']),
  }),
  { rows: 'columns', along: 'jacks' },
);

export const PHOTO_AT = draftKind(
  z.object({ place: z.nullable(z.string()), words: z.string(), whole: z.optional(z.boolean()) }),
);
export const VOICE_AT = draftKind(z.object({ place: z.nullable(z.string()), words: z.string() }));

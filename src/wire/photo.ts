// What the page hands to the worker that makes pictures small and bare, and what comes back.
import * as z from 'zod/mini';

export const photoRequest = z.object({
  /** A Blob; no type of the browser is known here. */
  picture: z.unknown(),
  /** Longest side of the picture to keep, in pixels. */
  longSide: z.number(),
});
export type PhotoRequest = z.infer<typeof photoRequest>;

const preparedPhoto = z.object({
  type: z.literal('photo'),
  bytes: z.custom<Uint8Array<ArrayBuffer>>((value) => value instanceof Uint8Array),
  mime: z.string(),
  width: z.number(),
  height: z.number(),
  thumb: z.object({
    bytes: z.custom<ArrayBuffer>((value) => value instanceof ArrayBuffer),
    mime: z.string(),
  }),
});
export type PreparedPhoto = z.infer<typeof preparedPhoto>;

const photoFailure = z.discriminatedUnion('type', [
  /** A format of one phone family that other browsers cannot show; the camera can be set to JPEG. */
  z.object({ type: z.literal('photo-heic') }),
  z.object({ type: z.literal('photo-unreadable') }),
  /** The browser gave no canvas there; the page may have one. */
  z.object({ type: z.literal('photo-no-canvas') }),
]);

export const photoMade = z.union([preparedPhoto, photoFailure]);
export type PhotoMade = z.infer<typeof photoMade>;

// What is kept on the phone beside the record is read by its schema and version: it fits, or it does not. Nothing here
// reads the disk; what does not fit is put aside by whoever does.
import * as z from 'zod/mini';

export interface DraftKind<T> {
  readonly version: number;
  /** Null where it does not fit. Never throws. */
  read(value: unknown, version: number): T | null;
}

/**
 * @param fresh What an earlier build did not keep yet: version 0 had no version, and was put over a fresh one when read.
 * @param version Rises when something is kept that a build before would drop; what that build kept has to be read still.
 */
export function draftKind<T extends NonNullable<unknown>>(
  schema: z.ZodMiniType<T>,
  fresh: Partial<T> = {},
  version = 1,
): DraftKind<T> {
  return {
    version,
    read(value, kept) {
      if (kept > version) return null;
      const whole = kept === 0 && isPlain(value) ? { ...fresh, ...value } : value;
      const read = z.safeParse(schema, whole);
      return read.success ? read.data : null;
    },
  };
}

function isPlain(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export const TEXT = draftKind(z.string());
export const FLAG = draftKind(z.boolean());

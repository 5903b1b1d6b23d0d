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
 */
export function draftKind<T extends NonNullable<unknown>>(
  schema: z.ZodMiniType<T>,
  fresh: Partial<T> = {},
): DraftKind<T> {
  return {
    version: 1,
    read(value, version) {
      if (version > this.version) return null;
      const whole = version === 0 && isPlain(value) ? { ...fresh, ...value } : value;
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

// A schema as the ends of a worker use it: what fits, or undefined.
import * as z from 'zod/mini';

export function fits<T>(schema: z.ZodMiniType<T>): (body: unknown) => T | undefined {
  return (body) => {
    const read = z.safeParse(schema, body);
    return read.success ? read.data : undefined;
  };
}

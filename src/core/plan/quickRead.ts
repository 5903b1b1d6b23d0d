// Reads data by a schema as zod does and with the same outcome, faster where the data is already of its form: without
// code made at run time, which the page's policy forbids, zod makes every object anew. What is not plain, or does not
// fit, goes to zod, so there is one source of truth and one set of messages.
import * as z from 'zod/mini';

/** Not of the form, or not for here to say. */
const ASK = Symbol('ask zod');
type Read = (value: unknown) => unknown;

interface Def {
  type: string;
  checks?: readonly unknown[];
  shape?: Readonly<Record<string, Schema>>;
  catchall?: unknown;
  element?: Schema;
  innerType?: Schema;
  entries?: Readonly<Record<string, unknown>>;
  values?: readonly unknown[];
}
type Schema = z.core.$ZodType;

/** @returns what `z.safeParse` answers for JSON data, key for key; data that needs no change may come back itself. */
export function quickReader<S extends Schema>(
  schema: S,
): (value: unknown) => { success: true; data: z.core.output<S> } | { success: false; error: z.core.$ZodError } {
  const read = toRead(schema);
  return (value) => {
    const data = read(value);
    return data === ASK ? z.safeParse(schema, value) : { success: true, data: data as z.core.output<S> };
  };
}

function toRead(schema: Schema): Read {
  const def = schema._zod.def as Def;
  if (def.checks !== undefined && def.checks.length > 0)
    return (def.type === 'number' && readBounded(def)) || byZod(schema);
  switch (def.type) {
    case 'string':
      return (value) => (typeof value === 'string' ? value : ASK);
    case 'boolean':
      return (value) => (typeof value === 'boolean' ? value : ASK);
    case 'number':
      return (value) => (Number.isFinite(value) ? value : ASK);
    case 'unknown':
      return (value) => value;
    case 'enum':
    case 'literal': {
      const values = new Set(def.entries ? Object.values(def.entries) : def.values);
      return (value) => (values.has(value) ? value : ASK);
    }
    case 'nullable': {
      const inner = toRead(def.innerType!);
      return (value) => (value === null ? null : inner(value));
    }
    case 'array':
      return readArray(toRead(def.element!));
    case 'object':
      return def.catchall === undefined ? readObject(def.shape!) : byZod(schema);
    default:
      return byZod(schema);
  }
}

function byZod(schema: Schema): Read {
  return (value) => {
    const read = z.safeParse(schema, value);
    return read.success ? read.data : ASK;
  };
}

/** Numbers between bounds, whole ones too: every event has some. Null where a check is none of these. */
function readBounded(def: Def): Read | null {
  let [low, high, whole] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, false];
  for (const check of def.checks as z.core.$ZodCheck[]) {
    const { check: kind, value, inclusive } = check._zod.def as { check: string; value?: number; inclusive?: boolean };
    if (kind === 'greater_than' && inclusive && value !== undefined) low = Math.max(low, value);
    else if (kind === 'less_than' && inclusive && value !== undefined) high = Math.min(high, value);
    else if (kind === 'multiple_of' && value === 1) whole = true;
    else return null;
  }
  return (value) =>
    Number.isFinite(value) &&
    (value as number) >= low &&
    (value as number) <= high &&
    (!whole || Number.isInteger(value))
      ? value
      : ASK;
}

function readArray(element: Read): Read {
  return (value) => {
    if (!Array.isArray(value)) return ASK;
    let made: unknown[] | null = null;
    for (let i = 0; i < value.length; i++) {
      const was: unknown = value[i];
      const now = element(was);
      if (now === ASK) return ASK;
      if (now !== was) made ??= value.slice(0, i);
      made?.push(now);
    }
    return made ?? value;
  };
}

function readObject(shape: Readonly<Record<string, Schema>>): Read {
  const keys = Object.keys(shape);
  const isOptional = keys.map((key) => (shape[key]!._zod.def as Def).type === 'optional');
  // An optional that is there is as its inner one; JSON knows no key without a value.
  const reads = keys.map((key, i) => toRead(isOptional[i] ? (shape[key]!._zod.def as Def).innerType! : shape[key]!));

  /** Its keys in the order of the schema and no other: most data is of this form already. */
  const isInOrder = (given: object): boolean => {
    let at = 0;
    for (const key in given) {
      while (at < keys.length && keys[at] !== key) {
        if (!isOptional[at]) return false;
        at += 1;
      }
      if (at === keys.length) return false;
      at += 1;
    }
    for (; at < keys.length; at++) if (!isOptional[at]) return false;
    return true;
  };

  return (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return ASK;
    const given = value as Record<string, unknown>;
    let made: Record<string, unknown> | null = isInOrder(given) ? null : {};
    for (let i = 0; i < keys.length; i++) {
      const key = keys[i]!;
      const was = given[key];
      if (was === undefined) {
        if (!isOptional[i] || Object.hasOwn(given, key)) return ASK;
        continue;
      }
      const now = reads[i]!(was);
      if (now === ASK) return ASK;
      if (now !== was && made === null) {
        made = {};
        for (const before of keys.slice(0, i)) if (given[before] !== undefined) made[before] = given[before];
      }
      if (made !== null) made[key] = now;
    }
    return made ?? given;
  };
}

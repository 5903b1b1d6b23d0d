// Plans over the whole schema, made by walking it: a field that is added to the model is generated at once, and whoever
// does not carry or tell it fails. Invented data; ids and references hold, everything else is whatever a cell may hold.
import fc from 'fast-check';
import type * as z from 'zod/mini';
import { type Plan, planSchema } from '../../../src/core/plan/model.ts';

type Def = z.core.$ZodTypes['_zod']['def'];
const defOf = (schema: z.core.$ZodType): Def => (schema as z.core.$ZodTypes)._zod.def;

/** What a cell may hold: formulas, quotes, look-alikes, ditto words, ranges, delimiters, blanks at the ends. */
const nasty = fc.oneof(
  fc.constantFrom('=1+1', '+48', '-12', '@SUM(A1)', '"', 'same', '0012', '1E5', '3-4', "'x", 'a;b,c\td', 'P1-P6'),
  fc.constantFrom(
    ' padded ',
    'two\nlines',
    'spare',
    'on air',
    'TBD',
    '?',
    '__proto__',
    'constructor',
    'x&<y>',
    'J1/J2',
  ),
  fc.constantFrom('_x000D_', 'Straße', '=HYPERLINK("x")', 'open', 'none', 'UN1', 'RK0', '["a"]', '[', 'main', 'yes'),
  fc.stringMatching(/^[A-Za-z0-9 ._/+-]{1,12}$/),
);

/** References are made as numbers first and tied to what is there afterwards. */
const some = fc.nat(40).map(String);
const REFERENCES = [
  'units.rack',
  'units.at',
  'units.tails.place',
  'units.faces.rows',
  'jacks.unit',
  'cables.ends.place',
  'settings.unit',
  'settings.place',
  'routes.unit',
  'routes.from',
  'routes.to',
];

/** Every path of the schema: `units.tails.connector`; lists are no step of it. */
export function pathsOf(schema: z.core.$ZodType = planSchema, path = ''): string[] {
  const def = defOf(schema);
  switch (def.type) {
    case 'object':
      return Object.entries(def.shape).flatMap(([key, inner]) => {
        const own = path === '' ? key : `${path}.${key}`;
        return [own, ...pathsOf(inner, own)];
      });
    case 'array':
      return pathsOf(def.element, path);
    case 'optional':
    case 'nullable':
      return pathsOf(def.innerType, path);
    default:
      return [];
  }
}

/** Paths that this value has something at: an absent field, null and an empty list are nothing. */
export function pathsIn(value: unknown, path = ''): string[] {
  if (value === undefined || value === null) return [];
  if (Array.isArray(value)) return value.flatMap((one) => pathsIn(one, path));
  if (typeof value !== 'object') return [path];
  const own = Object.entries(value).flatMap(([key, inner]) => pathsIn(inner, path === '' ? key : `${path}.${key}`));
  return path === '' || own.length === 0 ? own : [path, ...own];
}

function arbitraryOf(schema: z.core.$ZodType, path: string, blank: boolean): fc.Arbitrary<unknown> {
  const def = defOf(schema);
  switch (def.type) {
    case 'object': {
      const entries = Object.entries(def.shape).map(([key, inner]) => {
        const own = path === '' ? key : `${path}.${key}`;
        return [key, arbitraryOf(inner, own, true)] as const;
      });
      return fc
        .tuple(...entries.map(([, arbitrary]) => arbitrary))
        .map((values) =>
          Object.fromEntries(values.flatMap((one, i) => (one === undefined ? [] : [[entries[i]![0], one]]))),
        );
    }
    case 'array':
      return fc.array(arbitraryOf(def.element, path, false), { maxLength: 3, size: 'max' });
    case 'optional':
      // An empty text is as none: only a field that has to be there may be one.
      return fc.option(arbitraryOf(def.innerType, path, false), { nil: undefined });
    case 'nullable':
      return fc.option(arbitraryOf(def.innerType, path, blank), { nil: null });
    case 'enum':
      return fc.constantFrom(...Object.values(def.entries));
    case 'literal':
      return fc.constantFrom(...def.values);
    case 'boolean':
      return fc.boolean();
    case 'number':
      return fc.oneof(fc.integer({ min: 1, max: 60 }), fc.constant(1.5));
    case 'string': {
      if (REFERENCES.includes(path)) return some;
      return blank && !['circuits.name', 'settings.name', 'jacks.wires.tip'].includes(path)
        ? fc.oneof(nasty, fc.constant(''))
        : nasty;
    }
    default:
      throw new Error(`No arbitrary for ${def.type} at ${path}`);
  }
}

/** Ids that earlier revisions gave: they tell nothing of the names. References name what is there, or nothing known. */
function tie(given: Plan): Plan {
  const pick = (list: readonly { id: string }[], n: string) => list[Number(n) % Math.max(list.length, 1)]?.id;
  const racks = given.racks.map((rack, i) => ({ ...rack, id: `RK${i}` }));
  const units = given.units.map((unit, i) => ({ ...unit, id: `UN${i}` }));
  const jacks = (units.length === 0 ? [] : given.jacks).map((jack, i) => {
    const unit = pick(units, jack.unit)!;
    return { ...jack, unit, id: `${unit}/J${i}` };
  });
  const OFF_PLAN = ['~TRAY-OF-R2', 'GONE/J1', 'UN0/J99'];
  const place = (n: string) => (Number(n) > 36 ? OFF_PLAN[Number(n) - 37] : undefined) ?? pick(jacks, n) ?? 'GONE/J2';
  const put = <T extends object>(one: T): T =>
    Object.fromEntries(Object.entries(one).filter(([, value]) => value !== undefined)) as T;
  return {
    ...given,
    racks,
    units: units.map((unit) =>
      put({
        ...unit,
        rack: unit.rack === undefined ? undefined : pick(racks, unit.rack),
        at: unit.at === undefined ? undefined : place(unit.at),
        tails: unit.tails?.map((tail) =>
          put({ ...tail, place: tail.place === undefined ? undefined : place(tail.place) }),
        ),
        faces: unit.faces.map((face) => ({ ...face, rows: face.rows.map((row) => row.map(place)) })),
      }),
    ),
    jacks,
    cables: given.cables.map((cable, i) => ({
      ...cable,
      id: `C~${i}`,
      ends: cable.ends.map((end, e) => ({
        ...end,
        // Now and then an end is not there, and the first one is the to end.
        end: String.fromCharCode(65 + e + (i % 2)),
        place: end.place === null ? null : place(end.place),
      })),
    })),
    settings: (units.length === 0 ? [] : given.settings).map((setting) =>
      put({
        ...setting,
        unit: pick(units, setting.unit)!,
        place: setting.place === undefined ? undefined : place(setting.place),
      }),
    ),
    ...(given.routes
      ? {
          routes: given.routes.map(({ unit, from, to }) => ({
            unit: pick(units, unit) ?? 'GONE',
            from: place(from),
            to: place(to),
          })),
        }
      : {}),
  };
}

export const wholePlan: fc.Arbitrary<Plan> = arbitraryOf(planSchema, '', true).map((given) => tie(given as Plan));

/** Is this path the named one, or below it? */
export function isUnder(path: string, names: readonly string[]): boolean {
  return names.some((name) => path === name || path.startsWith(`${name}.`));
}

/** The plan without some of its fields, and with lists that may be absent always there. */
export function without(value: unknown, names: readonly string[], path = ''): unknown {
  if (Array.isArray(value)) return value.map((one) => without(one, names, path));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, inner]) => {
      const own = path === '' ? key : `${path}.${key}`;
      return isUnder(own, names) || inner === undefined ? [] : [[key, without(inner, names, own)]];
    }),
  );
}

interface OneChange {
  path: string;
  plan: Plan;
}

/** Every plan that differs from this one at a single spot: another value, a field gone or come, one item more or less. */
export function oneChangeEach(plan: Plan): OneChange[] {
  const spots: { path: string; apply: (root: unknown) => unknown }[] = [];
  walk(planSchema, plan, '', (change) => change);
  return spots.map(({ path, apply }) => ({ path, plan: apply(plan) as Plan }));

  function walk(
    schema: z.core.$ZodType,
    value: unknown,
    path: string,
    into: (change: (here: unknown) => unknown) => (root: unknown) => unknown,
  ): void {
    const def = defOf(schema);
    const add = (next: unknown) => spots.push({ path, apply: into(() => next) });
    if (def.type === 'optional' || def.type === 'nullable') {
      const nothing = def.type === 'optional' ? undefined : null;
      if (value === undefined || value === null) add(example(def.innerType));
      else {
        // A list that is there and empty says no more than one that is absent.
        if (!(Array.isArray(value) && value.length === 0)) add(nothing);
        walk(def.innerType, value, path, into);
      }
    } else if (def.type === 'object') {
      for (const [key, inner] of Object.entries(def.shape)) {
        const own = value as Record<string, unknown>;
        walk(inner, own[key], path === '' ? key : `${path}.${key}`, (change) =>
          into((here) => ({ ...(here as object), [key]: change((here as Record<string, unknown>)[key]) })),
        );
      }
    } else if (def.type === 'array') {
      const list = value as unknown[];
      add([...list, example(def.element)]);
      list.forEach((one, i) => {
        add(list.filter((_, j) => j !== i));
        walk(def.element, one, path, (change) =>
          into((here) => (here as unknown[]).map((other, j) => (j === i ? change(other) : other))),
        );
      });
    } else if (def.type === 'string') add(`${value}x`);
    else if (def.type === 'number') add(Number(value) + 1);
    else if (def.type === 'boolean') add(!value);
    else if (def.type === 'enum') {
      const all = Object.values(def.entries);
      add(all[(all.indexOf(value as string) + 1) % all.length]);
    }
  }
}

/** The least value that a schema takes. */
function example(schema: z.core.$ZodType): unknown {
  const def = defOf(schema);
  switch (def.type) {
    case 'object':
      return Object.fromEntries(
        Object.entries(def.shape).flatMap(([key, inner]) =>
          defOf(inner).type === 'optional' ? [] : [[key, example(inner)]],
        ),
      );
    case 'array':
      return [example(def.element)];
    case 'optional':
    case 'nullable':
      return example(def.innerType);
    case 'enum':
      return Object.values(def.entries)[0];
    case 'literal':
      return def.values[0];
    case 'boolean':
      return false;
    case 'number':
      return 7;
    default:
      return 'new';
  }
}

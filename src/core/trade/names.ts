// How names are compared. The key is the only folding that identity ever does; the others are for look-up only.

/** Unicode spaces, dashes, underscores, slashes, dots, commas, colons: one run of them is one separator. */
const SEPARATORS = /[\s\p{Pd}_/\\.,:;]+/gu;

/**
 * The comparison key of a name: NFKC, upper case, each run of separators as one `-`. Nothing else is folded, so
 * `I1` and `11`, `0101` and `101` keep apart. A sign in front (`-48V`) stays.
 */
export function nameToKey(name: string): string {
  // Most names are plain letters and figures, and a schedule has a hundred thousand of them.
  if (/^[A-Za-z0-9]+$/.test(name)) return name.toUpperCase();
  return name.normalize('NFKC').trim().toUpperCase().replace(SEPARATORS, '-');
}

/**
 * A form for look-up only: the key with no separator beside a letter, so that `AIO-21`, `AIO 21` and `aio21` are one.
 * Between digits it stays: `1-1` is not `11`.
 */
export function nameToLoose(name: string): string {
  const key = nameToKey(name);
  if (!key.includes('-')) return key;
  return key.replace(/(?<=\p{L})-(?=[\p{L}\p{N}])/gu, '').replace(/(?<=\p{N})-(?=\p{L})/gu, '');
}

/** A form for look-up only: the key without separators, O read as 0, I and L as 1, leading zeros dropped. */
export function nameToFolded(name: string): string {
  const bare = nameToKey(name).replace(/-/g, '').replace(/O/g, '0').replace(/[IL]/g, '1');
  return bare.replace(/^0+(?=.)/, '');
}

// Lists with one row per jack that name only the far end: the columns that say nothing of a side are the near one.
// Words of headers only, given by columns.ts.

/**
 * `Panel, Jack, Cable, Far end`: one row per jack, where the end that is not called far is here.
 * @param rest Keys of the titles; taken ones become ''. @param parts Words of what stands at an end.
 */
export function takeNearEnd(
  rest: string[],
  at: Map<string, number>,
  parts: readonly (readonly [string, RegExp])[],
  isNumber: (key: string) => boolean,
): void {
  const hasSide = (side: string) => [...at.keys()].some((meaning) => meaning.startsWith(side));
  if (!hasSide('to') || hasSide('from')) return;
  // A list of jacks that says more about them than a cable stays one.
  if (rest.some((key) => /^(direction|dir|tip|ring|legend|strip|strip text|normal|normalled to)$/.test(key))) return;
  const columns = parts.map(([part, word]) => [part, rest.findIndex((key) => key !== '' && word.test(key))] as const);
  const found = columns.filter(([, column]) => column >= 0);
  if (!['Unit', 'Jack'].every((part) => found.some(([one]) => one === part))) return;
  if (!rest.some(isNumber)) return;
  for (const [part, column] of found) {
    if (rest[column] === '') continue;
    at.set(`from${part}`, column);
    rest[column] = '';
  }
}

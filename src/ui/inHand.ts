// Says on the root element, as `data-busy`, whether the page has something in hand: a question to the record, a read or
// write of the disk, a screen on its way. Without it everything begun is done. It delays nothing and decides nothing.
let open = 0;

/** Counts a promise until it settles; anything else passes as it is. */
export function counted<T>(doing: T): T {
  if (!(doing instanceof Promise)) return doing;
  open += 1;
  document.documentElement.dataset.busy = '';
  return doing.finally(() => {
    open -= 1;
    // What follows from an answer begins right behind it, before anybody looks at the page.
    setTimeout(() => open > 0 || delete document.documentElement.dataset.busy);
  }) as T;
}

/** The same part, with every promise that its functions answer counted. */
export function told<T extends object>(part: T): T {
  const wrapped = Object.entries(part).map(([name, value]) => [
    name,
    typeof value === 'function' ? (...given: unknown[]) => counted(value(...given)) : value,
  ]);
  return Object.fromEntries(wrapped) as T;
}

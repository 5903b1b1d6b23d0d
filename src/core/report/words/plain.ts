// Counts and lists in words, once for screens, reports and files: which form a noun takes and how a list is joined is
// asked of `Intl`, so that another language is a matter of another tag and other words. Never glues a sentence.

const LANGUAGE = 'en-GB';
const forms = /* @__PURE__ */ new Intl.PluralRules(LANGUAGE);
const allOfThem = /* @__PURE__ */ new Intl.ListFormat(LANGUAGE, { type: 'conjunction' });
const oneOfThem = /* @__PURE__ */ new Intl.ListFormat(LANGUAGE, { type: 'disjunction' });

/** The sentence or noun that goes with this number: `plural(n, 'It differs', 'They differ')`. */
export function plural<T>(n: number, one: T, many: T): T {
  return forms.select(n) === 'one' ? one : many;
}

/** "1 jack", "3 jacks", "2 findings reach": the number with its words. */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n} ${plural(n, one, many)}`;
}

/** "1004, 1005 and 1006" */
export function listed(words: Iterable<string>): string {
  return allOfThem.format(words);
}

/** "1004, 1005 or 1006" */
export function anyOf(words: Iterable<string>): string {
  return oneOfThem.format(words);
}

/** "1004, 1005, 1006 and 12 more": no more than `most` by name, the rest counted. */
export function listedUpTo(words: readonly string[], most: number): string {
  return words.length > most + 1 ? listed([...words.slice(0, most), `${words.length - most} more`]) : listed(words);
}

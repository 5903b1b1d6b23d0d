// One name in several spellings: which of the known ones does a text mean? Look-up only. Identity folds case and
// separators and nothing else (identity.ts); whoever takes an answer from here writes it down.
import { nameToFolded, nameToKey, nameToLoose } from '../../trade/names.ts';

/** Known names under the forms in which a sheet may spell them. */
export interface Spellings {
  add(name: string): void;
  /** The known spelling of this name, or a likely one that has to be asked about; null when there is neither. */
  find(name: string): { known: string; sure: boolean } | null;
}

/**
 * @param zerosCount True where `P2` and `P02` may be two names.
 * @param lookAlikes False where a letter that looks like a figure is not even worth a question.
 */
export function createSpellings(zerosCount: boolean, lookAlikes = true): Spellings {
  const keys = new Set<string>();
  const loose = new Map<string, string | null>();
  const folded = new Map<string, string | null>();
  // Null marks a form that several known names share: then nothing is taken.
  const put = (map: Map<string, string | null>, form: string, name: string) => {
    const earlier = map.get(form);
    if (earlier === undefined) map.set(form, name);
    else if (earlier !== null && nameToKey(earlier) !== nameToKey(name)) map.set(form, null);
  };
  const looseOf = (name: string) =>
    zerosCount ? nameToLoose(name) : nameToLoose(name).replace(/(?<!\p{N})0+(?=\p{N})/gu, '');
  return {
    add(name) {
      const key = nameToKey(name);
      if (key === '' || keys.has(key)) return;
      keys.add(key);
      put(loose, looseOf(name), name);
      if (lookAlikes) put(folded, nameToFolded(name), name);
    },
    find(name) {
      const key = nameToKey(name);
      if (key === '' || keys.has(key)) return null;
      const near = loose.get(looseOf(name));
      if (near) return { known: near, sure: true };
      const far = lookAlikes ? folded.get(nameToFolded(name)) : null;
      // Letters and figures that look alike are different names until somebody says otherwise.
      return far && near !== null ? { known: far, sure: false } : null;
    },
  };
}

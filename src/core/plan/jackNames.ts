// Which jack does a text name? Asked of its unit's name first, so that a plan of a hundred thousand jacks keeps no
// list of their names. Look-up only, like lookUp.ts.

import { nameToFolded, nameToKey } from '../trade/names.ts';
import type { UnitId } from './identity.ts';
import type { Jack, Unit } from './model.ts';
import type { Lookup, Named } from './named.ts';

export interface JackNames {
  /** Jacks named by unit and jack with a space between: in these words, by key, or folded. */
  find(text: string, how: 'exact' | 'key' | 'folded'): Named[];
}

interface ByName {
  exact: Map<string, Unit[]>;
  key: Map<string, Unit[]>;
  folded: Map<string, Unit[]>;
}

export function createJackNames(units: readonly Unit[], jacksOf: Lookup<readonly Jack[], UnitId>): JackNames {
  let known: ByName | null = null;

  function byName(): ByName {
    if (known) return known;
    known = { exact: new Map(), key: new Map(), folded: new Map() };
    for (const unit of units) {
      put(known.exact, unit.label.trim(), unit);
      put(known.key, nameToKey(unit.label), unit);
      put(known.folded, nameToFolded(unit.label), unit);
    }
    return known;
  }

  function jacksNamed(candidates: Iterable<Unit>, isSame: (name: string) => boolean): Named[] {
    return [...new Set(candidates)].flatMap((unit) =>
      (jacksOf.get(unit.id) ?? []).flatMap((jack): Named[] => {
        const label = `${unit.label} ${jack.label}`;
        return isSame(label) ? [{ type: 'jack', id: jack.id, label }] : [];
      }),
    );
  }

  return {
    find(text, how) {
      switch (how) {
        case 'exact': {
          const trimmed = text.trim();
          if (!trimmed.includes(' ')) return [];
          return jacksNamed(startsOf(trimmed, ' ', byName().exact), (name) => name.trim() === trimmed);
        }
        case 'key': {
          const key = nameToKey(text);
          if (!key.includes('-')) return [];
          return jacksNamed(startsOf(key, '-', byName().key), (name) => nameToKey(name) === key);
        }
        case 'folded': {
          const folded = nameToFolded(text);
          return jacksNamed(startsOf(folded, '', byName().folded), (name) => nameToFolded(name) === folded);
        }
      }
    },
  };
}

/** Units whose name is a beginning of the text; with a separator, only beginnings that end before or at one. */
function* startsOf(text: string, separator: string, units: ReadonlyMap<string, Unit[]>): Generator<Unit> {
  for (let i = 1; i < text.length; i++) {
    if (separator !== '' && text[i] !== separator && text[i - 1] !== separator) continue;
    yield* units.get(text.slice(0, i)) ?? [];
  }
}

function put(map: Map<string, Unit[]>, name: string, unit: Unit): void {
  const list = map.get(name);
  if (list) list.push(unit);
  else map.set(name, [unit]);
}

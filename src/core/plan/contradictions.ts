// Where a schedule contradicts itself. Facts only; nothing is put right here.

import { nameToKey } from './identity.ts';
import type { Cable, Contradiction, Jack, Origin } from './model.ts';

export function findContradictions(cables: readonly Cable[], jacks: ReadonlyMap<string, Jack>): Contradiction[] {
  const found: Contradiction[] = [];
  const rowsOf = (list: readonly Cable[]): Origin[] => list.flatMap((cable) => (cable.origin ? [cable.origin] : []));
  const group = (map: Map<string, Cable[]>, key: string, cable: Cable) => {
    const list = map.get(key);
    if (!list) map.set(key, [cable]);
    else if (!list.includes(cable)) list.push(cable);
  };
  const byNumber = new Map<string, Cable[]>();
  const byPlace = new Map<string, Cable[]>();
  for (const cable of cables) {
    if (cable.label !== '') group(byNumber, nameToKey(cable.label), cable);
    for (const end of cable.ends) if (end.place !== null) group(byPlace, end.place, cable);
  }
  for (const list of byNumber.values()) {
    if (list.length > 1)
      found.push({ type: 'number-repeated', cables: list.map((cable) => cable.id), places: [], rows: rowsOf(list) });
  }
  for (const [place, list] of byPlace) {
    // A jack list may allow several; a future cable claims a jack that is not free yet without being wrong.
    const claiming = list.filter((cable) => cable.status !== 'future');
    if (claiming.length < 2 || jacks.get(place)?.mult) continue;
    found.push({
      type: 'jack-claimed-twice',
      cables: claiming.map((cable) => cable.id),
      places: [place],
      rows: rowsOf(claiming),
    });
  }
  for (const cable of cables) {
    const places = cable.ends.flatMap((end) => (end.place === null ? [] : [end.place]));
    const twice = places.find((place, i) => places.indexOf(place) !== i);
    if (twice !== undefined)
      found.push({ type: 'both-ends-one-jack', cables: [cable.id], places: [twice], rows: rowsOf([cable]) });
    if (places.length < cable.ends.length)
      found.push({ type: 'end-missing', cables: [cable.id], places, rows: rowsOf([cable]) });
  }
  return found;
}

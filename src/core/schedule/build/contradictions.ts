// Where a schedule contradicts itself. Facts only; nothing is put right here.

import type { PlaceId } from '../../plan/identity.ts';
import type { Cable, Contradiction, Jack, Origin, Unit } from '../../plan/model.ts';
import { passesThrough } from '../../plan/passive.ts';
import { nameToKey } from '../../trade/names.ts';

export function findContradictions(
  cables: readonly Cable[],
  jacks: ReadonlyMap<PlaceId, Jack>,
  units: readonly Unit[],
): Contradiction[] {
  const panels = new Set(units.filter(passesThrough).map(({ id }) => id));
  const found: Contradiction[] = [];
  const rowsOf = (list: readonly Cable[]): Origin[] => list.flatMap((cable) => (cable.origin ? [cable.origin] : []));
  const group = (map: Map<string, Cable[]>, key: string, cable: Cable) => {
    const list = map.get(key);
    if (!list) map.set(key, [cable]);
    else if (!list.includes(cable)) list.push(cable);
  };
  const byNumber = new Map<string, Cable[]>();
  const byPlace = new Map<PlaceId, Cable[]>();
  for (const cable of cables) {
    if (cable.label !== '') group(byNumber, nameToKey(cable.label), cable);
    for (const end of cable.ends) if (end.place !== null) group(byPlace, end.place, cable);
  }
  for (const list of byNumber.values()) {
    if (list.length > 1 && !arePartsOfOne(list))
      found.push({ type: 'number-repeated', cables: list.map((cable) => cable.id), places: [], rows: rowsOf(list) });
  }
  for (const [place, list] of byPlace) {
    // A jack list may allow several; a future cable claims a jack that is not free yet without being wrong.
    const claiming = list.filter((cable) => cable.status !== 'future');
    const jack = jacks.get(place);
    // A hole of a panel has a side behind and a side in front, but only one of the two can bring a signal.
    const isPanel = jack !== undefined && panels.has(jack.unit);
    const driven = claiming.filter((cable) => comesFromOutput(cable, place, jacks)).length;
    if (claiming.length < (isPanel && driven < 2 ? 3 : 2) || jack?.mult) continue;
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

function comesFromOutput(cable: Cable, place: PlaceId, jacks: ReadonlyMap<PlaceId, Jack>): boolean {
  return cable.ends.some(
    (end) => end.place !== null && end.place !== place && jacks.get(end.place)?.direction === 'out',
  );
}

/** Rows of one multicore or one stereo lead: the same number, and each says another pair or leg. */
function arePartsOfOne(cables: readonly Cable[]): boolean {
  const parts = cables.map(({ leg, notes }) => leg ?? PART.exec(notes ?? '')?.[1]);
  return parts.every((part) => part !== undefined) && new Set(parts).size === parts.length;
}

/** As readCableRows.ts keeps the cell of a column for pairs and legs, and the hop of a chain. */
const PART = /(?:^|; )((?:pair|channel|leg|core|hop) \S+)/;

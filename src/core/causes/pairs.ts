// Pairs of one cable that were followed to each other's landings: two tip groups landed one for the other may be behind
// it. A story beside the crossing itself, possible until one more pair was followed.
import { groupsExchanged, pairsOf } from '../rules/pairs.ts';
import type { Candidate } from './cause.ts';
import { howToFollow, isPairFollowed } from './cycles.ts';
import type { Floor } from './floor.ts';

/** The exchange of groups that a crossing of pairs may be part of; null where it is none or does not fit. */
export function tipGroupsOf({ view, differences }: Floor, one: Candidate): Candidate | null {
  const [first] = [...one.covers].flatMap((id) => differences.get(id) ?? []);
  const cable = isPairFollowed(first) ? view.index.cables.get(first?.cable ?? '') : undefined;
  const pairs = cable && pairsOf(view, cable);
  const group = pairs && groupsExchanged(pairs);
  if (!cable || !pairs || !group) return null;
  const moved = [...differences.values()].filter((other) => isPairFollowed(other) && other.cable === cable.id);
  const at = (pair: number) => pairs[pair - 1]!;
  const named = (pair: number) => `${cable.label} pair ${pair}`;
  const partner = group.predicts.find(([a]) => a === group.look)![1];
  return {
    kind: 'groups-exchanged',
    certainty: 'possible',
    places: [...new Set(moved.flatMap(({ places }) => places[0]!))],
    labels: moved.flatMap(({ labels }) => labels),
    covers: new Set(moved.map(({ id }) => id)),
    against: [],
    predicts: group.predicts.flatMap(([a, b]) => [
      { place: at(b).to, label: named(a) },
      { place: at(a).to, label: named(b) },
    ]),
    nextLook: {
      place: at(group.look).from,
      how: howToFollow(cable),
      expect: [
        { kind: 'groups-exchanged', sees: { type: 'place', place: at(partner).to } },
        { kind: 'crossed', sees: { type: 'place', place: at(group.look).to } },
      ],
    },
    of: { type: 'tips', cable: cable.label, tips: group.tips.map(String) },
  };
}

// What is this cable, where is its other end, when was it last seen? And the plan as a list of racks and units.
// Answers come from the plan in force and from every audit of the station.

import { circuitsOver } from '../../plan/circuits.ts';
import type { AuditId, CableId, PlaceId } from '../../plan/identity.ts';
import { isOnAir } from '../../plan/onAir.ts';
import { factsAt, type PlanIndex, placeToWords } from '../../plan/planIndex.ts';
import type { Basis } from '../../record/events.ts';
import type { Fate } from '../../record/looks.ts';
import { type Fold, foldAll } from '../../rules/fold.ts';
import type { Station } from '../../rules/station.ts';
import { cautionFor } from '../../trade/hazards.ts';
import { cableReach, type ReachView } from '../reachView.ts';
import { compareLabels } from '../walk/walkOrder.ts';
import { lookToPhotoWords } from '../words/photoTime.ts';
import { type DiscrepancyWords, discrepancyToWords } from '../words/words.ts';

export interface LastSeen {
  at: number;
  author: string;
  audit: AuditId;
  basis: Basis;
  /** Read off a photo, in words. */
  photo?: string | undefined;
  text: string;
}

export interface CableView {
  id: string;
  label: string;
  circuit: string | null;
  /** What the list of circuits says of those that run over it. */
  circuits: { name: string; role: 'main' | 'standby' | null; carrier: string | null; hops: string[] }[];
  signal: string | null;
  type: string | null;
  length: string | null;
  status: string;
  onAir: boolean;
  notes: string | null;
  origin: { sheet: string; row: number } | null;
  ends: {
    end: string;
    name: string;
    place: PlaceId | null;
    words: string;
    location: string | null;
    last: LastSeen | null;
  }[];
  /** Where its label stands by the newest audit that saw it, when that is not where the plan has it. */
  astray: { words: string; last: LastSeen | null }[];
  history: { at: number; author: string; words: string; fate: Fate }[];
  differences: (DiscrepancyWords & { kind: string; audit: AuditId })[];
  caution: string | null;
  reach: (ReachView & { audit: AuditId | null }) | null;
}

export function endName(end: string): string {
  return end === 'A' ? 'From end' : end === 'B' ? 'To end' : `End ${end}`;
}

export function cableView(station: Station, id: string): CableView | null {
  const index = station.planInForce()?.index;
  const cable = index?.cables.get(id);
  if (!index || !cable) return null;
  const folds = station.audits().flatMap(({ fold }) => (fold ? [fold] : []));
  const lastAt = (place: PlaceId): LastSeen | null =>
    folds
      .flatMap((fold) => lookToLast(fold, place, cable.id))
      .reduce<LastSeen | null>((a, b) => (!a || b.at > a.at ? b : a), null);
  const planned = new Set(cable.ends.flatMap((end) => end.place ?? []));
  const astray = new Set(folds.flatMap((fold) => fold.placesOfCable(id)).filter((place) => !planned.has(place)));
  const places = new Set([...planned, ...astray]);
  const facts = cable.ends.map((end) => (end.place ? factsAt(index, end.place) : null)).find((one) => one?.connector);
  return {
    id,
    label: cable.label,
    circuit: cable.circuit ?? null,
    circuits: circuitsOver(index, id).map(({ name, role, carrier, hops }) => ({
      name,
      role: role ?? null,
      carrier: carrier ?? null,
      hops,
    })),
    signal: cable.signalText ?? cable.signal ?? null,
    type: cable.type ?? null,
    length: cable.length ?? null,
    status: cable.status,
    onAir: isOnAir({ index, airWords: station.rules().rules.airWords ?? [] }, cable.id),
    notes: cable.notes ?? null,
    origin: cable.origin ?? null,
    ends: cable.ends.map(({ end, place, location, unit, jack }) => ({
      end,
      name: endName(end),
      place,
      words: place ? placeToWords(index, place) : [unit, jack].filter(Boolean).join(' ') || 'not in the plan',
      location: location ?? null,
      last: place ? lastAt(place) : null,
    })),
    astray: [...astray].map((place) => ({ words: placeToWords(index, place), last: lastAt(place) })),
    history: folds
      .flatMap((fold) => [...places].flatMap((place) => fold.looks.history(place)))
      .sort((a, b) => b.look.at - a.look.at)
      .slice(0, 50)
      .map(({ look, fate }) => ({
        at: look.at,
        author: look.author,
        words: `${placeToWords(index, look.place)}: ${look.plugs[0]?.labels.map((l) => l.text).join(', ') || look.state}`,
        fate,
      })),
    differences: folds.flatMap((fold) =>
      fold
        .discrepancies()
        .filter((d) => d.labels.includes(cable.label))
        .map((d) => ({ ...discrepancyToWords(fold.index, d), kind: d.kind, audit: fold.started?.payload.name ?? '' })),
    ),
    caution: cautionFor(cable.signal, facts?.connector),
    reach: reachIn(station, index, cable.id),
  };
}

/** By the newest audit over this plan that saw both its ends, else by the plan alone. */
function reachIn(station: Station, index: PlanIndex, cable: CableId): CableView['reach'] {
  const folds = station.audits().flatMap(({ fold }) => (fold?.index.cables.get(cable) ? [fold] : []));
  const airWords = station.rules().rules.airWords ?? [];
  const saw = folds.find((fold) => fold.placesOfCable(cable).length > 1) ?? folds[0];
  const fold = saw ?? foldAll(index, [], { airWords });
  return { ...cableReach(fold, cable), audit: saw?.started?.payload.name ?? null };
}

function lookToLast(fold: Fold, place: PlaceId, cable: CableId): LastSeen[] {
  if (!fold.readingsAt(place).some((reading) => reading.cable === cable)) return [];
  return fold.stateAt(place).looks.map((look) => ({
    at: look.at,
    author: look.author,
    audit: fold.started?.payload.name ?? '',
    basis: look.basis,
    photo: lookToPhotoWords(fold, look),
    text: look.plugs[0]?.labels[0]?.text ?? '',
  }));
}

export interface PlanOverview {
  name: string;
  revision: string;
  source: string | null;
  cables: number;
  jacks: number;
  racks: {
    id: string;
    label: string;
    room: string | null;
    heightU: number;
    numbering: 'bottom-up' | 'top-down';
    units: { id: string; label: string; u: number | null; heightU: number; jacks: number; line: string }[];
  }[];
  rooms: { name: string; units: { id: string; label: string; jacks: number; line: string }[] }[];
  contradictions: number;
}

export function planOverview(revision: string, index: PlanIndex): PlanOverview {
  const unitLine = (id: string) => {
    const unit = index.units.get(id)!;
    return { id, label: unit.label, jacks: index.jacksOf.get(id)?.length ?? 0, line: unit.description ?? '' };
  };
  const roomNames = new Set(index.plan.units.filter((unit) => !unit.rack).map((unit) => unit.room ?? 'Room not named'));
  return {
    name: index.plan.name,
    revision,
    source: index.plan.source?.name ?? null,
    cables: index.plan.cables.length,
    jacks: index.plan.jacks.length,
    racks: [...index.plan.racks]
      .sort((a, b) => compareLabels(a.label, b.label))
      .map((rack) => ({
        id: rack.id,
        label: rack.label,
        room: rack.room ?? null,
        heightU: rack.heightU,
        numbering: rack.numbering,
        units: index.plan.units
          .filter((unit) => unit.rack === rack.id)
          .sort((a, b) => (b.u ?? 0) - (a.u ?? 0))
          .map((unit) => ({ ...unitLine(unit.id), u: unit.u ?? null, heightU: unit.heightU })),
      })),
    rooms: [...roomNames].sort(compareLabels).map((name) => ({
      name,
      units: index.plan.units
        .filter((unit) => !unit.rack && (unit.room ?? 'Room not named') === name)
        .map((unit) => unitLine(unit.id)),
    })),
    contradictions: index.plan.contradictions.length,
  };
}

export interface UnitView {
  label: string;
  description: string | null;
  /** Every jack in the order of the list, with the cables planned there. */
  jacks: { place: PlaceId; label: string; cables: { id: string; label: string; far: string }[] }[];
}

/** One unit of the plan with all its jacks, the empty ones too. */
export function unitView(index: PlanIndex, id: string): UnitView | null {
  const unit = index.units.get(id);
  if (!unit) return null;
  return {
    label: unit.label,
    description: unit.description ?? null,
    jacks: (index.jacksOf.get(id) ?? []).map((jack) => ({
      place: jack.id,
      label: jack.label,
      cables: (index.endsAt.get(jack.id) ?? []).map(({ cable, end }) => {
        const far = cable.ends.find((one) => one !== end)?.place;
        return { id: cable.id, label: cable.label, far: far ? placeToWords(index, far) : 'not in the plan' };
      }),
    })),
  };
}

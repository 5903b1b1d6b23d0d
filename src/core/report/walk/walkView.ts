// What the walk shows for one jack: the unit's face as the eye sees it, what stands there, what is planned, what
// comes next. In a blind audit nothing expected leaves here before it was stated.

import { endsOver } from '../../plan/containment.ts';
import type { AuditId, EventId, PlaceId, RackId } from '../../plan/identity.ts';
import { placeToParts } from '../../plan/identity.ts';
import { isOnAir } from '../../plan/onAir.ts';
import { factsAt, placeToWords } from '../../plan/planIndex.ts';
import type { Basis, Permission, State } from '../../record/events.ts';
import type { Fold } from '../../rules/fold.ts';
import { isLookedAt } from '../../rules/planDiscrepancies.ts';
import { cautionFor } from '../../trade/hazards.ts';
import { checkNext } from '../../walk/recheck.ts';
import { lookToPhotoWords } from '../words/photoTime.ts';
import { isBetweenNames } from '../words/renamingWords.ts';
import { ALONG_NO_END, alongCable, sideToWords } from '../words/walkFaceWords.ts';
import { outsideAt, type ScopePart, stopOutside } from './scopeView.ts';
import { faceToOrder, type Side, type WalkStop } from './walkOrder.ts';
import type { WalkRenaming } from './walkRenaming.ts';
import { goesAlongCables, isOpen, nextOpen, nextUnseen, openIn, orderOf, wayOf } from './walkStops.ts';

export interface JackView {
  place: PlaceId;
  label: string;
  connector?: string | undefined;
  state: 'unseen' | 'empty' | 'plugged' | 'label' | 'unlabelled' | 'illegible' | 'could-not-see';
  plan?: string | undefined;
  found?: string | undefined;
  mark?: 'as-planned' | 'differs' | 'undecided' | 'hazard' | undefined;
  upsideDown?: boolean;
}

export interface WalkView {
  audit: AuditId;
  name: string;
  occasion: string;
  hasPlan: boolean;
  permission: Permission;
  blind: boolean;
  closed: boolean;
  onAir: boolean;
  rack: RackId | null;
  room: string | null;
  side: Side;
  unit: { id: string; label: string; u: number | null; heightU: number; description: string | null };
  current: {
    place: PlaceId;
    jack: string;
    plan: string | null;
    planCable: string | null;
    done: boolean;
    through: string | null;
  };
  /** Rows as printed; `order` has all jacks of the face in the order this walk visits them. */
  face: { rows: JackView[][]; order: string[]; mirrored: boolean };
  sideWords: string;
  /** Where the walk goes along the cables: the one in hand, and how its other end stands. */
  along: string | null;
  leftHere: number;
  leftAll: number;
  next: string | null;
  previous: string | null;
  caution: string | null;
  /** Where names are being changed: put in by whoever answers, see renamingView.ts. */
  renaming?: WalkRenaming | null;
  notes: number;
  photos: number;
  /** Somebody wrote a jacket down in this audit: only then is anything asked about them. */
  marks: boolean;
  /** Looks that stand here, for undo and "changed since"; `printed`: the label's own words, where it names another. */
  looks: {
    event: EventId;
    author: string;
    at: number;
    label: string | null;
    printed?: string | undefined;
    state: State;
    basis: Basis;
    photo?: string | undefined;
  }[];
  complete: boolean;
  /** Jacks in scope that nobody could look at: they have an entry that says why. */
  notLooked: number;
  /** The next of them after the jack in hand. */
  unseenNext: string | null;
  /** The jack in hand is none that this audit covers: what may be added to it. */
  outside: ScopePart[] | null;
}

export function markAt(fold: Fold, place: PlaceId): JackView['mark'] {
  const state = fold.stateAt(place);
  const [worst] = fold.discrepanciesAt(place);
  if (worst?.severity === 'people' || worst?.severity === 'equipment') return 'hazard';
  if (state.type === 'unseen' || state.type === 'not-verified') return undefined;
  const isWrong = worst && checkNext(fold, place).length === 0;
  if (isWrong) return worst.kind === 'sightings-conflict' ? 'undecided' : 'differs';
  // What no plan knows cannot be as planned.
  if (fold.revision === null || state.type === 'plugged' || isBetweenNames(fold, place)) return undefined;
  return fold.readingsAt(place).some(({ cable }) => cable === null) ? undefined : 'as-planned';
}

export function jackToView(fold: Fold, place: PlaceId, blind: boolean): JackView {
  const { index } = fold;
  const state = fold.stateAt(place);
  const parts = placeToParts(place);
  const type = state.type === 'conflict' ? 'plugged' : state.type === 'not-verified' ? 'could-not-see' : state.type;
  const planned = endsOver(index, place)[0]?.cable;
  const renamed = isBetweenNames(fold, place)?.new;
  const found = renamed ?? fold.readingsAt(place)[0]?.text ?? state.plugs[0]?.pattern;
  const said = state.type !== 'unseen';
  return {
    place,
    label: index.jacks.get(place)?.label ?? (parts.type === 'jack' ? parts.jack : place),
    connector: factsAt(index, place).connector,
    state: type === 'blanked' ? 'empty' : type,
    plan: planned && (!blind || said) ? planned.label || undefined : undefined,
    found,
    mark: blind && !said ? undefined : markAt(fold, place),
  };
}

export function walkView(fold: Fold, audit: AuditId, place: PlaceId | null): WalkView | null {
  const { places: all, at: order } = orderOf(fold);
  const away = place === null ? undefined : stopOutside(fold, place, wayOf(fold));
  const current = place && (away || order.has(place)) ? place : (nextOpen(fold, null) ?? all[0]);
  const stop = away ?? (current === undefined ? undefined : order.get(current)?.stop);
  const started = fold.started?.payload;
  if (!current || !stop || !started) return null;
  const { index } = fold;
  const way = away ? away.places : all;
  const at = away ? away.places.indexOf(current) : (order.get(current)?.index ?? 0);
  const facts = factsAt(index, current);
  return {
    audit,
    name: started.name,
    occasion: started.occasion,
    hasPlan: fold.revision !== null,
    permission: fold.permission,
    blind: started.blind,
    closed: fold.closed !== null,
    onAir: (index.endsAt.get(current) ?? []).some(({ cable }) => isOnAir(fold, cable.id)),
    rack: stop.rack === null ? null : (index.racks.get(stop.rack)?.label ?? stop.rack),
    room: stop.room,
    side: stop.side,
    ...faceOf(fold, stop, current, started.blind),
    current: currentOf(fold, current, started.blind),
    along: goesAlongCables(fold) ? alongToWords(fold, current) : null,
    leftHere: openIn(fold, stop),
    next: way[at + 1] ?? null,
    previous: way[at - 1] ?? null,
    caution: cautionFor(facts.signal, facts.connector),
    notes: fold.of('note').filter((note) => note.payload.place === current).length,
    photos: fold.of('photo').filter((photo) => photo.payload.place === current).length,
    marks: fold.of('jacket-read').length > 0,
    looks: looksAt(fold, current),
    ...leftOf(fold, current),
    outside: away ? outsideAt(fold, current) : null,
  };
}

/** The unit of a stop and its face as the eye sees it. */
function faceOf(
  fold: Fold,
  stop: WalkStop,
  current: PlaceId,
  blind: boolean,
): Pick<WalkView, 'unit' | 'face' | 'sideWords'> {
  const { index } = fold;
  const unit = index.units.get(stop.unit);
  const face = unit?.faces.find((one) => one.rows.some((row) => row.includes(current)));
  const rows = (face?.rows ?? [stop.places]).map((row, i, { length }) =>
    row.map((one) => ({ ...jackToView(fold, one, blind), upsideDown: length === 2 && i === 1 })),
  );
  return {
    unit: {
      id: stop.unit,
      label: unit?.label ?? stop.unit,
      u: unit?.u ?? null,
      heightU: unit?.heightU ?? 1,
      description: unit?.description ?? null,
    },
    face: {
      rows,
      order: face ? faceToOrder(index, face, wayOf(fold)) : stop.places,
      // A through-panel is one set of holes: from its other side the eye sees it mirrored.
      mirrored: face?.through === true && (stop.side === 'rear') !== (face.face === 'rear'),
    },
    sideWords: sideToWords(rows, stop.side, blind),
  };
}

/** In a blind audit the plan is hidden until the jack was spoken about. */
function currentOf(fold: Fold, current: PlaceId, blind: boolean): WalkView['current'] {
  const planned = endsOver(fold.index, current)[0]?.cable;
  const done = !isOpen(fold, current);
  const shown = done || !blind;
  return {
    place: current,
    jack: fold.index.jacks.get(current)?.label ?? current,
    plan: (shown && planned?.label) || null,
    planCable: shown && planned ? planned.id : null,
    done,
    through: shown ? farWords(fold, current) : null,
  };
}

function looksAt(fold: Fold, current: PlaceId): WalkView['looks'] {
  return fold.stateAt(current).looks.map((look) => ({
    event: look.event,
    author: look.author,
    at: look.at,
    label: look.plugs[0]?.labels[0]?.text ?? null,
    printed: look.plugs[0]?.labels[0]?.printed,
    state: look.state,
    basis: look.basis,
    photo: lookToPhotoWords(fold, look),
  }));
}

/** How far the whole walk has come: an entry is not yet a look. */
function leftOf(fold: Fold, current: PlaceId): Pick<WalkView, 'leftAll' | 'complete' | 'notLooked' | 'unseenNext'> {
  const { places, at } = orderOf(fold);
  let [said, looked] = [0, 0];
  for (const one of fold.seenPlaces()) {
    if (!at.has(one)) continue;
    said += 1;
    if (isLookedAt(fold, one)) looked += 1;
  }
  const leftAll = places.length - said;
  return {
    leftAll,
    complete: places.length > 0 && looked === places.length,
    notLooked: said - looked,
    unseenNext: leftAll > 0 || said === looked ? null : nextUnseen(fold, current),
  };
}

/** Where the cable in hand goes by plan. */
function farWords(fold: Fold, place: PlaceId): string | null {
  const planned = fold.index.endsAt.get(place)?.[0];
  const other = planned?.cable.ends.find((end) => end !== planned.end);
  return other?.place ? placeToWords(fold.index, other.place) : null;
}

function alongToWords(fold: Fold, place: PlaceId): string {
  const planned = fold.index.endsAt.get(place)?.[0];
  if (!planned) return ALONG_NO_END;
  const others = planned.cable.ends.flatMap((end) =>
    end === planned.end || end.place === null
      ? []
      : [{ words: placeToWords(fold.index, end.place), said: fold.isSaid(end.place) }],
  );
  return alongCable(planned.cable.label || null, others);
}

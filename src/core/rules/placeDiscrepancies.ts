// What is wrong at one jack or loose place, from what stands there, what the plan has there and what was followed
// to it. Depends on this place and the places joined with it, on nothing else.

import { endsOver, rangeOver } from '../plan/containment.ts';
import { isLooseEnd, type PlaceId } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import { isOnAir } from '../plan/onAir.ts';
import { factsAt, type PlannedEnd } from '../plan/planIndex.ts';
import type { PlaceState } from '../record/looks.ts';
import { matchesPattern } from '../record/looks.ts';
import type { PlugReading } from '../record/readings.ts';
import { isBeingRenamed } from '../record/renameNames.ts';
import type { Severity } from '../trade/kinds.ts';
import { nameToKey } from '../trade/names.ts';
import type { PhantomVictim } from '../trade/phantom.ts';
import { signalClash } from '../trade/signals.ts';
import { type Add, adapterDiscrepancies, isAdapter, needsNoLabel } from './adapters.ts';
import { conflictOf } from './conflicts.ts';
import { type Discrepancy, type Finding, makeDiscrepancy } from './discrepancy.ts';
import type { FoldView } from './foldView.ts';
import { leadAsPlanned } from './patchLeads.ts';
import { victimOf } from './phantom.ts';

/** Occupied by something, whatever it is. */
export function isOccupied(state: PlaceState): boolean {
  return ['label', 'unlabelled', 'illegible', 'plugged'].includes(state.type);
}

/** Bare plugs whose labels name what is planned here, followed nowhere: nothing below could find a thing. */
function isPlainlyRight(
  view: FoldView,
  place: PlaceId,
  state: PlaceState,
  planned: readonly PlannedEnd[],
  readings: readonly PlugReading[],
): boolean {
  const [reading] = readings;
  if (state.type !== 'label' || state.plugs.length !== 1 || readings.length !== 1 || !reading) return false;
  const { plug, cable, others } = reading;
  if (cable === null || others.length > 0) return false;
  if (plug.connector !== undefined || plug.cableType !== undefined || plug.adapter !== undefined) return false;
  const here = planned.find((one) => one.cable.id === cable)?.cable;
  return here !== undefined && view.joined(place).length === 0 && phantomVictim(view, here, place) === null;
}

/** What the cable brings that must not meet the phantom power which is on at this place, as read or by plan. */
function phantomVictim(view: FoldView, cable: Cable, place: PlaceId): PhantomVictim | null {
  if (view.settings.phantomAt(place) !== 'on') return null;
  const victim = victimOf(view.index, cable, place);
  // The plan has this very cable here with phantom on: what it calls audio is no line then.
  const isPlanned = victim !== 'ribbon' && view.index.endsAt.get(place)?.some((end) => end.cable.id === cable.id);
  return isPlanned && view.settings.plannedPhantom(place) === 'on' ? null : victim;
}

export function placeDiscrepancies(view: FoldView, place: PlaceId): Discrepancy[] {
  const { index } = view;
  const state = view.stateAt(place);
  const planned = endsOver(index, place);
  if (isPlainlyRight(view, place, state, planned, view.readingsAt(place))) return [];
  const isEndItself = () => index.endsAt.has(place) || rangeOver(index, place) !== null;
  const evidence = state.looks.map((look) => look.event);
  const loose = isLooseEnd(place);
  const found: Discrepancy[] = [];
  const add = (finding: Finding, severity: Severity, labels: string[], places = [place]) =>
    found.push(makeDiscrepancy(finding, severity, places, labels, evidence));

  const lead = leadAsPlanned(view, place);
  if (state.type === 'conflict') {
    add(conflictOf(state), 'undecided', []);
  }
  if ((state.type === 'empty' || state.type === 'blanked') && !loose && planned.length > 0 && isEndItself()) {
    for (const { cable } of planned) {
      if (cable.status !== 'in-use') continue;
      const finding: Finding = { kind: 'empty-jack', plan: cable.label, cable: cable.id };
      add(finding, isOnAir(view, cable.id) ? 'on-air' : 'service', [cable.label]);
    }
  }
  const plan = planned[0]?.cable.label;
  const planHere = plan ? { plan } : {};
  const nag: Severity = view.occasion === 'inherit' ? 'record' : 'undecided';
  // Where a place is inherited and the plan has nothing here, what is found is the record, not a difference.
  const isNews = view.occasion === 'inherit' && planned.length === 0 && !loose;
  const isKnownBare = planned.some(({ cable }) => cable.label === '');
  if (state.type === 'unlabelled') {
    const labelled = view.joined(place).flatMap((far) => view.readingsAt(far).map((reading) => ({ far, reading })))[0];
    if (labelled) {
      const { text } = labelled.reading;
      add({ kind: 'one-end-labelled', found: text }, 'record', [text], [place, labelled.far]);
    } else if (loose) {
      add({ kind: 'abandoned-cable' }, 'record', []);
    } else if (!isNews && !isKnownBare && lead === null && !needsNoLabel(view, place, state)) {
      add({ kind: 'unlabelled-cable', ...planHere }, plan ? 'record' : nag, plan ? [plan] : []);
    }
  }
  if (state.type === 'illegible') {
    const pattern = state.plugs[0]?.pattern ?? '';
    const fits = planned.some(({ cable }) => matchesPattern(cable.label, pattern));
    add({ kind: 'illegible-label', pattern, ...planHere }, fits ? 'record' : 'undecided', [pattern]);
  }
  for (const reading of view.readingsAt(place)) {
    if (reading.cable === null && lead === null && !isAdapter(view, reading)) {
      const { text } = reading;
      const maybe = reading.candidates.map(({ label }) => label);
      if (loose) add({ kind: 'abandoned-cable', found: text }, 'record', [text]);
      else if (!isNews || maybe.length > 0) {
        add({ kind: 'unplanned-cable', found: text, maybe, ...planHere }, nag, [text]);
      }
    }
    const renaming = reading.cable !== null && isBeingRenamed(index, reading.cable, [reading.text, ...reading.others]);
    if (reading.others.length > 0 && !renaming) {
      const { text, others } = reading;
      add({ kind: 'old-label-left', found: text, old: others }, 'record', [text, ...others]);
    }
    plugDiscrepancies(view, place, reading, add);
  }
  if (isOccupied(state) && !loose) {
    const jack = index.jacks.get(place);
    if (jack?.spare && planned.every(({ cable }) => cable.status !== 'in-use')) {
      const labels = view.readingsAt(place).map(({ text }) => text);
      if (!planned.some(({ cable }) => view.readingsAt(place).some((r) => r.cable === cable.id))) {
        add({ kind: 'spare-in-use', found: labels[0] ?? '' }, 'undecided', labels);
      }
    }
  }
  for (const plug of state.plugs) adapterDiscrepancies(view, place, plug, planned, add);
  for (const far of view.joined(place)) joinDiscrepancies(view, place, far, evidence, found);
  return found;
}

/** Connector, cable type, and a microphone that would meet 48 V it must not see. */
function plugDiscrepancies(view: FoldView, place: PlaceId, reading: PlugReading, add: Add): void {
  const { index } = view;
  const cable = reading.cable ? index.cables.get(reading.cable) : undefined;
  const { plug, text } = reading;
  const differ = (a?: string, b?: string) => a && b && nameToKey(a) !== nameToKey(b);
  if (plug.connector) {
    const expected = factsAt(index, place).connector;
    if (differ(plug.connector, expected)) {
      add({ kind: 'wrong-connector', found: plug.connector, plan: expected! }, 'service', [text]);
    }
  }
  if (differ(plug.cableType, cable?.type)) {
    add({ kind: 'wrong-cable-type', found: plug.cableType!, plan: cable!.type! }, 'service', [text]);
  }
  const victim = cable ? phantomVictim(view, cable, place) : null;
  if (victim) add({ kind: 'phantom-hazard', found: text, victim }, 'equipment', [text]);
}

/** What two places joined by a followed cable say against each other. Told once, by the place first in order. */
function joinDiscrepancies(view: FoldView, place: PlaceId, far: PlaceId, own: string[], found: Discrepancy[]): void {
  if (far < place) return;
  const { index } = view;
  const places = [place, far];
  const evidence = [...own, ...view.stateAt(far).looks.map((look) => look.event)];
  const [near, other] = [view.readingsAt(place), view.readingsAt(far)];
  const label = near[0]?.text ?? other[0]?.text;
  const labels = label ? [label] : [];
  const joinsAsPlanned = index.endsAt
    .get(place)
    ?.find(({ cable }) => cable.ends.some((end) => end.place === far && end.place !== place));
  if (near[0] && other[0] && nameToKey(near[0].text) !== nameToKey(other[0].text)) {
    const same = near[0].cable !== null && near[0].cable === other[0].cable;
    if (!same) {
      const texts = [near[0].text, other[0].text];
      const severity = joinsAsPlanned ? 'record' : 'undecided';
      found.push(makeDiscrepancy({ kind: 'ends-differ', found: near[0].text }, severity, places, texts, evidence));
    }
  }
  if (joinsAsPlanned) return;
  const [a, b] = [factsAt(index, place), factsAt(index, far)];
  const clash = a.signal && b.signal ? signalClash(a.signal, b.signal) : null;
  if (clash && a.signal && b.signal) {
    const finding: Finding = { kind: 'signal-clash', signals: [a.signal, b.signal], joined: true };
    found.push(makeDiscrepancy(finding, clash.severity, places, labels, evidence));
  }
  if (a.direction && a.direction === b.direction && (a.direction === 'in' || a.direction === 'out')) {
    const severity: Severity = a.direction === 'out' ? 'equipment' : 'service';
    const finding: Finding = { kind: 'direction-clash', direction: a.direction };
    found.push(makeDiscrepancy(finding, severity, places, labels, evidence));
  }
  const spare = [...(index.endsAt.get(place) ?? []), ...(index.endsAt.get(far) ?? [])].find(
    ({ cable }) => cable.status === 'spare',
  );
  if (spare) {
    const { label } = spare.cable;
    found.push(makeDiscrepancy({ kind: 'spare-in-use', found: label }, 'undecided', places, [label], evidence));
  }
}

// What the cable rows of a schedule say against each other and against the jacks they name.

import type { Cable, CableEnd } from '../../plan/model.ts';
import { type AirView, isOnAir } from '../../plan/onAir.ts';
import { passesThrough } from '../../plan/passive.ts';
import { type PlanIndex, placeToWords } from '../../plan/planIndex.ts';
import { directionFault, matingFault, textToConnectors } from '../../trade/connectors.ts';
import type { Leg, Severity, Signal } from '../../trade/kinds.ts';
import { lengthLimit, textToMetres } from '../../trade/lengths.ts';
import { signalClash } from '../../trade/signals.ts';
import { type DeskFinding, makeFinding } from './finding.ts';
import { mayMeet, type SiteRules } from './siteRules.ts';

export function deskCables(index: PlanIndex, rules: SiteRules): DeskFinding[] {
  const view: AirView = { index, airWords: rules.airWords ?? [] };
  return [
    ...contradictions(view),
    ...index.plan.cables.flatMap((cable) => [
      ...directions(view, cable),
      ...plugs(index, cable),
      ...signals(view, cable, rules),
      ...length(view, cable),
    ]),
    ...legs(view, rules),
  ];
}

/** What a fault of this cable puts at risk. */
function reach(view: AirView, cable: Cable): Severity {
  return cable.status === 'in-use' ? worst(view, [cable]) : 'record';
}

function worst(view: AirView, cables: readonly Cable[]): Severity {
  return cables.some(({ id }) => isOnAir(view, id)) ? 'on-air' : 'service';
}

const called = (cable: Cable) => cable.label || 'A cable without a number';

function contradictions(view: AirView): DeskFinding[] {
  const { index } = view;
  return index.plan.contradictions.flatMap((one): DeskFinding[] => {
    const cables = one.cables.flatMap((id) => index.cables.get(id) ?? []);
    const [first] = cables;
    // A spare or a future cable need not end anywhere yet.
    if (!first || (one.type === 'end-missing' && first.status !== 'in-use')) return [];
    const places = one.places.map((place) => placeToWords(index, place));
    const labels = cables.map(({ label }) => label).filter((label) => label !== '');
    const [severity, line]: [Severity, string] =
      one.type === 'number-repeated'
        ? ['record', `${cables.length} cables have the number ${first.label}.`]
        : one.type === 'jack-claimed-twice'
          ? [worst(view, cables), `${places[0]} is given to ${labels.join(' and ')}.`]
          : one.type === 'both-ends-one-jack'
            ? [reach(view, first), `${called(first)} has both ends at ${places[0]}.`]
            : ['record', `${called(first)} lacks an end${missingEnds(first)}.`];
    return [makeFinding(one.type, severity, line, { rows: one.rows, labels, places })];
  });
}

function missingEnds(cable: Cable): string {
  const said = cable.ends
    .filter(({ place }) => place === null)
    .map(({ unit, jack }) => `${unit} ${jack}`.trim())
    .filter((words) => words !== '');
  return said.length > 0 ? `: ${said.join(', ')} is no place that can be found` : '';
}

type Placed = CableEnd & { place: string };
const placed = (cable: Cable) => cable.ends.filter((end): end is Placed => end.place !== null);

function directions(view: AirView, cable: Cable): DeskFinding[] {
  const { index } = view;
  const [from, ...rest] = placed(cable);
  const jackOf = (end: Placed) => index.jacks.get(end.place);
  const direction = from && jackOf(from)?.direction;
  if (!from || (direction !== 'in' && direction !== 'out')) return [];
  const clashing = rest.find((end) => {
    // Two jacks of one unit on a cable of several ends are its legs: they meet the far side, not each other.
    const isLeg = cable.ends.length > 2 && jackOf(end)?.unit === jackOf(from)?.unit;
    return !isLeg && end.place !== from.place && jackOf(end)?.direction === direction;
  });
  if (!clashing) return [];
  const places = [from, clashing].map(({ place }) => placeToWords(index, place));
  const what = direction === 'out' ? 'two outputs' : 'two inputs';
  // Two outputs drive against each other; two inputs only stay silent.
  const severity = direction === 'out' ? 'equipment' : reach(view, cable);
  const line = `${called(cable)} joins ${what}: ${places.join(' and ')}.`;
  return [makeFinding('direction-clash', severity, line, { rows: [cable.origin], labels: [cable.label], places })];
}

function plugs(index: PlanIndex, cable: Cable): DeskFinding[] {
  return placed(cable).flatMap((end) => {
    const plugs = textToConnectors(end.connector ?? '');
    const jack = index.jacks.get(end.place);
    const [plug, ...others] = plugs;
    if (!plug || !jack) return [];
    // A jack that no list names has its connector from this very cell.
    const sockets = jack.implied ? [] : textToConnectors(jack.connector ?? '');
    const direction = jack.direction === 'in' || jack.direction === 'out' ? jack.direction : null;
    const fits = plugs.some((one) => sockets.some((socket) => matingFault(one, socket) === null));
    const mating = sockets[0] && !fits ? matingFault(plug, sockets[0]) : null;
    const why = mating ?? (direction && others.length === 0 ? directionFault(plug, direction) : null);
    if (!why) return [];
    const words = placeToWords(index, end.place);
    const about = { rows: [cable.origin, jack.origin], labels: [cable.label], places: [words] };
    return [makeFinding('connector-clash', 'record', `${called(cable)} at ${words}: ${why}.`, about)];
  });
}

function signals(view: AirView, cable: Cable, rules: SiteRules): DeskFinding[] {
  const { index } = view;
  const { signal } = cable;
  if (!signal) return jacksAgainst(view, cable, rules);
  return placed(cable).flatMap((end) => {
    const jack = index.jacks.get(end.place);
    if (!jack?.signal || jack.implied || mayMeet(rules, signal, jack.signal)) return [];
    const clash = signalClash(signal, jack.signal, jack.connector);
    if (!clash) return [];
    const words = placeToWords(index, end.place);
    const severity = clash.severity === 'service' ? reach(view, cable) : clash.severity;
    const line = `${called(cable)} carries ${signal} into ${words}, a jack for ${jack.signal}. ${clash.why}`;
    const about = { rows: [cable.origin, jack.origin], labels: [cable.label], places: [words] };
    return [makeFinding('signal-clash', severity, line, about)];
  });
}

/** A cable of which no signal is written is judged by the jacks that it joins. */
function jacksAgainst(view: AirView, cable: Cable, rules: SiteRules): DeskFinding[] {
  const { index } = view;
  const [from, ...rest] = placed(cable);
  const one = from && index.jacks.get(from.place);
  if (!from || !one?.signal || one.implied) return [];
  return rest.slice(0, 1).flatMap((end) => {
    const other = index.jacks.get(end.place);
    if (!one.signal || !other?.signal || other.implied || mayMeet(rules, one.signal, other.signal)) return [];
    const clash = signalClash(one.signal, other.signal, one.connector ?? other.connector);
    if (!clash) return [];
    const places = [from, end].map(({ place }) => placeToWords(index, place));
    const severity = clash.severity === 'service' ? reach(view, cable) : clash.severity;
    const line = `${called(cable)} joins ${places[0]}, a jack for ${one.signal}, and ${places[1]}, a jack for ${other.signal}. ${clash.why}`;
    const about = { rows: [cable.origin, one.origin, other.origin], labels: [cable.label], places };
    return [makeFinding('signal-clash', severity, line, about)];
  });
}

function length(view: AirView, cable: Cable): DeskFinding[] {
  const read = textToMetres(cable.length ?? '');
  const plugs = cable.ends.map(({ connector }) => connector ?? '').join(' ');
  const limit = lengthLimit(cable.signal, `${cable.type ?? ''} ${plugs}`, isPermanent(view.index, cable));
  if (!read || !limit || read.metres <= limit.metres) return [];
  const metres = Math.round(read.metres * 10) / 10;
  const said = read.unitSaid ? `${metres} m` : `${metres}, if metres,`;
  const line = `${called(cable)} is ${said} long; ${limit.of} ends at ${limit.metres} m.`;
  const about = { rows: [cable.origin], labels: [cable.label] };
  return [makeFinding('length-over-limit', limit.hard ? reach(view, cable) : 'record', line, about)];
}

/** From panel to panel or plate: the cords at its ends are not part of it. */
function isPermanent(index: PlanIndex, cable: Cable): boolean {
  const units = placed(cable).map(({ place }) => index.units.get(index.jacks.get(place)?.unit ?? ''));
  return units.length === 2 && units.every((unit) => unit !== undefined && passesThrough(unit));
}

/** Words at the end of a name that tell one leg of two. Common practice, no source. */
const LEG = /(?:^|[\s\-_.(])(l|left|r|right)\)?$/i;

/** Signals that come as left and right. A door on the left has no right leg. */
const HAS_LEGS: ReadonlySet<Signal> = new Set(['line-audio', 'aes3', 'loudspeaker', 'microphone', 'dc-powered-audio']);

function legOf(index: PlanIndex, cable: Cable): { leg: Leg; name: string; base: string } | null {
  const ends = placed(cable);
  const [from] = ends;
  // A cable with tails at one side carries both.
  if (!from || cable.ends.length > 2 || (cable.signal && !HAS_LEGS.has(cable.signal))) return null;
  if (/\b(l|r|left|right)( leg| side| channel)? only\b/i.test(cable.notes ?? '')) return null;
  const texts = [cable.circuit ?? '', from.jack, ends[1]?.jack ?? ''];
  const named = texts.map((text) => LEG.exec(text.trim())).find((match) => match !== null);
  const byWord = named ? (/^l/i.test(named[1]!) ? 'left' : 'right') : undefined;
  const leg = cable.leg ?? index.jacks.get(from.place)?.leg ?? byWord;
  if (leg !== 'left' && leg !== 'right') return null;
  const bare = (text: string) => text.trim().replace(LEG, '').toUpperCase();
  // The service tells which two belong together; where it has no name, the units do.
  const name = bare(cable.circuit ?? '');
  // The two of a pair of loudspeakers are named `SPK L` and `SPK R`, or `SPKL` and `SPKR`.
  const units = ends.map(({ unit }) => bare(unit).replace(/[LR]$/, '')).join(' ');
  return { leg, name, base: `${name} ${units} ${name === '' ? bare(from.jack).replace(/\d+$/, '') : ''}` };
}

function legs(view: AirView, rules: SiteRules): DeskFinding[] {
  const { index } = view;
  const groups = new Map<string, { leg: Leg; cable: Cable }[]>();
  const services = new Map<string, { leg: Leg; cable: Cable }[]>();
  for (const cable of index.plan.cables) {
    const found = legOf(index, cable);
    if (!found) continue;
    const one = { leg: found.leg, cable };
    groups.set(found.base, [...(groups.get(found.base) ?? []), one]);
    if (found.name !== '') services.set(found.name, [...(services.get(found.name) ?? []), one]);
  }
  const sides = (group: readonly { leg: Leg; cable: Cable }[]) => {
    const of = (wanted: Leg) => group.filter(({ leg }) => leg === wanted).map(({ cable }) => cable);
    return [of('left'), of('right')] as const;
  };
  // The two legs of a service may go to two units: then it is whole although neither pair of units is.
  const whole = new Set(
    [...services]
      .filter(([, group]) => sides(group)[0].length === sides(group)[1].length)
      .flatMap(([, group]) => group),
  );
  return [...groups.values()].flatMap((group) => {
    const [left, right] = sides(group);
    if (left.length !== right.length)
      return group.every((one) => whole.has(one)) ? [] : withoutPartner(view, left, right);
    return left.length === 1 ? order(view, left[0]!, right[0]!, rules) : [];
  });
}

function withoutPartner(view: AirView, left: readonly Cable[], right: readonly Cable[]): DeskFinding[] {
  const [more, leg, other] =
    left.length > right.length ? ([left, 'left', 'right'] as const) : ([right, 'right', 'left'] as const);
  const alone = more.slice(Math.min(left.length, right.length));
  const labels = alone.map(({ label }) => label);
  const severity = worst(view, alone);
  const line = `${alone.map(called).join(', ')} is a ${leg} leg without a ${other} one.`;
  return [makeFinding('left-without-right', severity, line, { rows: alone.map(({ origin }) => origin), labels })];
}

/** Left on the higher of two numbers of one unit where the station's rule has it on the lower one, or the reverse. */
function order(view: AirView, left: Cable, right: Cable, { left: rule }: SiteRules): DeskFinding[] {
  const { index } = view;
  if (rule === 'any') return [];
  const crossed = placed(left).filter((end) => {
    const other = placed(right).find((one) => one.end === end.end);
    const [a, b] = [end, other].map((one) => /^(.*?)(\d+)$/.exec(one?.jack.trim() ?? ''));
    if (!a || !b || other?.unit !== end.unit || a[1] !== b[1] || Number(a[2]) === Number(b[2])) return false;
    return Number(a[2]) < Number(b[2]) !== (rule === 'lower');
  });
  if (crossed.length === 0) return [];
  const places = crossed.map(({ place }) => placeToWords(index, place));
  const severity = isOnAir(view, right.id) ? 'on-air' : reach(view, left);
  const line = `${called(left)} is the left leg and has the ${rule === 'lower' ? 'higher' : 'lower'} number at ${places.join(' and ')}, against the station’s rule.`;
  const about = { rows: [left.origin, right.origin], labels: [left.label, right.label], places };
  return [makeFinding('left-right-order', severity, line, about)];
}

// Answers the page's questions from the station's folds. One function per question; every answer is a screen's slice.

import { type AuditId, type PlaceId, placeToParts } from '../core/plan/identity.ts';
import { lookUp } from '../core/plan/lookUp.ts';
import { type PlanIndex, placeToWords, roomOfUnit } from '../core/plan/planIndex.ts';
import { cableView, planOverview, unitView } from '../core/report/plan/planView.ts';
import { searchPlan } from '../core/report/plan/searchPlan.ts';
import { differencesView, reconciliation } from '../core/report/reconciliation.ts';
import { nextToDo, walkWithRenaming } from '../core/report/renamingView.ts';
import { endsLeft } from '../core/report/walk/endsLeft.ts';
import { homeView } from '../core/report/walk/homeView.ts';
import { verdictAt } from '../core/report/walk/verdict.ts';
import { compareLabels } from '../core/report/walk/walkOrder.ts';
import { setWay, stopsView, walkOf } from '../core/report/walk/walkStops.ts';
import { nextFarQuestion, windowList } from '../core/report/walk/windowList.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { Station } from '../core/rules/station.ts';
import type { Question, Questions } from '../wire/page.ts';
import { describeAnswers } from './answersDescribe.ts';
import { deskAnswers } from './answersDesk.ts';
import { fixesAnswers } from './answersFixes.ts';
import { markAnswers } from './answersMarks.ts';
import { partAnswers } from './answersParts.ts';
import { photoAnswers } from './answersPhotos.ts';
import { recordAnswers } from './answersRecord.ts';
import { indexWithNewNames, renamingAnswers } from './answersRenaming.ts';
import { revisionAnswers } from './answersRevisions.ts';
import { scopeAnswers } from './answersScope.ts';
import { twinAnswers } from './answersTwins.ts';
import { walkAnswers } from './answersWalk.ts';
import { workAnswers } from './answersWork.ts';

type Answers = { [Q in Question]: (given: Questions[Q]['ask']) => Questions[Q]['answer'] };

export function createAnswers(station: Station): Answers {
  const foldOf = (audit: AuditId): Fold | null => station.audit(audit)?.fold ?? null;
  const indexFor = (audit: AuditId | null): PlanIndex | null =>
    (audit ? foldOf(audit)?.index : undefined) ?? station.planInForce()?.index ?? null;

  return {
    ...renamingAnswers(station),
    ...describeAnswers(foldOf),
    ...partAnswers(foldOf),
    ...twinAnswers(station, foldOf),
    ...workAnswers(foldOf),
    ...walkAnswers(foldOf, indexFor),
    ...markAnswers(foldOf),
    ...fixesAnswers(station, foldOf),
    ...photoAnswers(station),
    ...deskAnswers(station),
    ...recordAnswers(station),
    ...revisionAnswers(station),
    ...scopeAnswers(foldOf),
    home: () => homeView(station),
    walk: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && walkWithRenaming(fold, audit, place);
    },
    way: ({ audit, way }) => {
      const fold = foldOf(audit);
      if (fold) setWay(fold, way);
      return null;
    },
    stops: ({ audit }) => {
      const fold = foldOf(audit);
      return fold ? stopsView(fold) : [];
    },
    verdict: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && verdictAt(fold, place);
    },
    nextOpen: ({ audit, after }) => {
      const fold = foldOf(audit);
      return fold && nextToDo(fold, after);
    },
    farQuestion: ({ audit, place, skipped }) => {
      const fold = foldOf(audit);
      return fold && nextFarQuestion(fold, place, skipped);
    },
    window: ({ audit }) => {
      const fold = foldOf(audit);
      return fold ? windowList(fold) : [];
    },
    endsLeft: ({ audit, place, author }) => {
      const fold = foldOf(audit);
      return fold && endsLeft(fold, place, author);
    },
    homes: ({ audit, text }) => {
      const index = indexFor(audit);
      if (!index || foldOf(audit)?.started?.payload.blind) return [];
      const found = lookUp(index.names, text, 'cable');
      const named = found.type === 'found' ? [found.named] : found.type === 'ask' ? found.candidates : [];
      return named.flatMap(({ type, id }) =>
        type === 'cable'
          ? (index.cables.get(id)?.ends ?? []).flatMap(({ place, unit }) =>
              place === null ? [] : [{ place, unit, words: placeToWords(index, place) }],
            )
          : [],
      );
    },
    suggest: ({ audit, place, text }) => {
      const fold = foldOf(audit);
      return fold ? suggest(fold, place, text) : [];
    },
    range: ({ audit, first, last }) => {
      const fold = foldOf(audit);
      return fold && rangeOf(fold, first, last);
    },
    search: ({ text }) => {
      const index = indexWithNewNames(station);
      return index ? searchPlan(index, text) : [];
    },
    cable: ({ id }) => cableView(station, id),
    plan: () => {
      const plan = station.planInForce();
      return plan?.index ? planOverview(plan.revision, plan.index) : null;
    },
    unit: ({ id }) => {
      const index = station.planInForce()?.index;
      return index ? unitView(index, id) : null;
    },
    scope: () => scopeOptions(station),
    differences: ({ audit }) => {
      const fold = foldOf(audit);
      return fold && differencesView(fold, audit);
    },
    report: ({ audit }) => {
      const fold = foldOf(audit);
      return fold && reconciliation(fold, audit, station.name());
    },
    labels: ({ audit }) => {
      const fold = audit ? foldOf(audit) : null;
      const index = indexFor(audit);
      if (!index) return [];
      const inScope = (place: PlaceId | null) => place !== null && (!fold || fold.scope.has(place));
      return [...index.plan.cables]
        .filter((cable) => cable.label !== '' && (!fold || cable.ends.some((end) => inScope(end.place))))
        .sort((a, b) => compareLabels(a.label, b.label))
        .map((cable) => ({
          text: cable.label,
          line: cable.ends.map((end) => [end.unit, end.jack].filter(Boolean).join(' ')).join(' to '),
        }));
    },
    wanted: ({ missing }) => station.plansWanted(new Set(missing)),
    permission: ({ audit }) => foldOf(audit)?.permission ?? 'look',
  };
}

/** Typed entry: the planned label first (never in a blind audit), then labels that begin with the text. */
function suggest(fold: Fold, place: PlaceId | null, text: string): { label: string; line: string }[] {
  const { index } = fold;
  const typed = text.trim().toUpperCase();
  const blind = fold.started?.payload.blind === true;
  if (blind) return [];
  const planned = place ? (index.endsAt.get(place) ?? []).map(({ cable }) => cable) : [];
  const near = neighbours(fold, place);
  const starts = index.plan.cables.filter((cable) => typed !== '' && cable.label.toUpperCase().startsWith(typed));
  const all = [...planned, ...near, ...starts].filter(
    (cable) => cable.label !== '' && (typed === '' || cable.label.toUpperCase().includes(typed)),
  );
  return [...new Map(all.map((cable) => [cable.id, cable])).values()].slice(0, 6).map((cable) => ({
    label: cable.label,
    line: cable.ends.map((end) => [end.unit, end.jack].filter(Boolean).join(' ')).join(' to '),
  }));
}

/** Cables planned on the two jacks before and after: a slip by one jack is the commonest thing to type. */
function neighbours(fold: Fold, place: PlaceId | null) {
  const stop = place ? walkOf(fold).find((one) => one.places.includes(place)) : undefined;
  if (!stop || !place) return [];
  const at = stop.places.indexOf(place);
  const around = [1, -1, 2, -2].flatMap((step) => stop.places[at + step] ?? []);
  return around.flatMap((one) => (fold.index.endsAt.get(one) ?? []).map(({ cable }) => cable));
}

function rangeOf(fold: Fold, first: string, last: string): Questions['range']['answer'] {
  const [a, b] = [placeToParts(first), placeToParts(last)];
  if (a.type !== 'jack' || b.type !== 'jack' || a.unit !== b.unit) return null;
  const stop = walkOf(fold).find((one) => one.places.includes(first) && one.places.includes(last));
  if (!stop) return null;
  const [from, to] = [stop.places.indexOf(first), stop.places.indexOf(last)];
  return stop.places.slice(Math.min(from, to), Math.max(from, to) + 1).map((place) => ({
    place,
    label: fold.index.jacks.get(place)?.label ?? placeToWords(fold.index, place),
    planned: (fold.index.endsAt.get(place) ?? []).some(({ cable }) => cable.status === 'in-use'),
  }));
}

function scopeOptions(station: Station): Questions['scope']['answer'] {
  const plan = station.planInForce();
  const index = plan?.index;
  if (!plan || !index) return { racks: [], rooms: [], plan: null };
  const jacksOf = (units: readonly { id: string }[]) =>
    units.reduce((sum, unit) => sum + (index.jacksOf.get(unit.id)?.length ?? 0), 0);
  const rooms = new Map<string, { id: string }[]>();
  for (const unit of index.plan.units) {
    const room = roomOfUnit(index, unit);
    if (room === null) continue;
    rooms.set(room, [...(rooms.get(room) ?? []), unit]);
  }
  return {
    racks: [...index.plan.racks]
      .sort((x, y) => compareLabels(x.label, y.label))
      .map((rack) => {
        const units = index.plan.units.filter((unit) => unit.rack === rack.id);
        return { id: rack.id, label: rack.label, room: rack.room ?? null, units: units.length, jacks: jacksOf(units) };
      }),
    rooms: [...rooms]
      .sort(([x], [y]) => compareLabels(x, y))
      .map(([name, units]) => ({
        name,
        units: units.length,
        jacks: jacksOf(units),
      })),
    plan: { revision: plan.revision, name: plan.name },
  };
}

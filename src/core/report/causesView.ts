// Causes as screens and reports show them: words, what each covers by number, and the arrows for its drawing. Every
// number comes from the same fold as the list of differences.

import type { Cause, Judgement, NextLook } from '../causes/cause.ts';
import type { Explanation } from '../causes/explain.ts';
import { floorOf } from '../causes/floor.ts';
import { triedAt } from '../causes/tried.ts';
import type { Decisions } from '../fixes/decisions.ts';
import { jackOf, type PlaceId, unitOf } from '../plan/identity.ts';
import { placeToWords } from '../plan/planIndex.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import { fingerprint } from '../rules/fingerprints.ts';
import type { Fold } from '../rules/fold.ts';
import type { Severity } from '../trade/kinds.ts';
import {
  type DecisionLine,
  decisionLine,
  type JudgingLine,
  judgementToLine,
  judgingLine,
  type ReopenedLine,
  reopenedLine,
  type SaidLine,
} from './decisionsView.ts';
import { compareLabels } from './walk/walkOrder.ts';
import { CERTAINTY_WORDS, causeToLine, causeToTitle, LOOK_WORDS, lookToLine } from './words/causeWords.ts';
import { SEVERITY_WORDS } from './words/words.ts';

/** "Checked at SW1 P03, cannot tell": by whom, and when. */
export interface TriedLine {
  place: string;
  by: string;
  at: number;
}

interface LookLine {
  placeId: PlaceId;
  place: string;
  how: string;
  line: string;
}

/** Jacks in their order, and each plug from where it belongs to where it is: indexes into the jacks. */
export interface CauseDrawing {
  jacks: { place: PlaceId; label: string }[];
  arrows: { label: string; from: number; to: number }[];
  /** Followed, so drawn as seen; otherwise a story in dashes. */
  seen: boolean;
}

export interface CauseLine {
  id: string;
  kind: Cause['kind'];
  severity: Severity;
  severityWords: string;
  certainty: string;
  title: string;
  line: string;
  /** Ids of the differences it covers. */
  explains: string[];
  /** "explains 7 of 8" */
  explainsWords: string;
  leftover: string[];
  against: string[];
  predicts: string[];
  rivals: string[];
  look: LookLine | null;
  /** Checks of it that told nothing. */
  tried: TriedLine[];
  drawing: CauseDrawing | null;
  judging: JudgingLine;
  /** Said of it or of what it covers before newer looks came. */
  reopened: ReopenedLine[];
  decision: DecisionLine;
}

export interface CausesView {
  causes: CauseLine[];
  nextLook: LookLine | null;
  /** Ids of differences that stand for themselves. */
  alone: string[];
  exact: boolean;
  /** Causes that somebody said no to and that are not offered therefore. */
  refused: SaidLine[];
  /** Judged before, open again; also those that no cause is told for any more. */
  reopened: ReopenedLine[];
}

/** More jacks than this do not fit a drawing that can be read. */
const DRAWN_AT_MOST = 24;

/** @param found All causes of these differences. */
export function causesView(
  fold: Fold,
  differences: readonly Discrepancy[],
  found: Explanation,
  decisions: Decisions,
): CausesView {
  const { index } = fold;
  const reopened = found.judged.filter(({ state }) => state === 'reopened');
  const shownWith = new Set(found.causes.flatMap(({ judged }) => judged.map(({ event }) => event)));
  const titles = new Map(found.causes.map((cause) => [cause.id, causeToTitle(cause)]));
  const arrows = new Map(floorOf(fold, differences).displacements.map((arrow) => [arrow.id, arrow]));
  const lookLine = (look: NextLook | null): LookLine | null =>
    look && {
      placeId: look.place,
      place: placeToWords(index, look.place),
      how: LOOK_WORDS[look.how],
      line: lookToLine(index, look),
    };

  function drawingOf(cause: Cause): CauseDrawing | null {
    const mine = cause.explains.flatMap((id) => arrows.get(id) ?? []);
    const units = new Set(mine.flatMap(({ home, found: at }) => [home, at].map(unitOf)));
    const places = [...new Set(mine.flatMap(({ home, found: at }) => [home, at]))];
    if (mine.length === 0 || units.size !== 1 || places.length > DRAWN_AT_MOST) return null;
    const jacks = places
      .map((place) => ({ place, label: index.jacks.get(place)?.label ?? jackOf(place) }))
      .sort((a, b) => compareLabels(a.label, b.label));
    const at = new Map(jacks.map(({ place }, i) => [place, i]));
    return {
      jacks,
      arrows: mine.map(({ label, home, found: there }) => ({ label, from: at.get(home)!, to: at.get(there)! })),
      seen: cause.certainty === 'confirmed' || cause.severity !== 'undecided',
    };
  }

  return {
    causes: found.causes.map((cause): CauseLine => {
      const all = cause.explains.length + cause.leftover.length;
      return {
        id: cause.id,
        kind: cause.kind,
        severity: cause.severity,
        severityWords: SEVERITY_WORDS[cause.severity],
        certainty: CERTAINTY_WORDS[cause.certainty],
        title: causeToTitle(cause),
        line: causeToLine(index, cause),
        explains: cause.explains,
        explainsWords: `explains ${cause.explains.length} of ${all}`,
        leftover: cause.leftover,
        against: cause.against.map((place) => placeToWords(index, place)),
        predicts: cause.predicts.map(
          ({ place, label }) => `${placeToWords(index, place)}: ${label ?? 'nothing plugged'}`,
        ),
        rivals: cause.rivals.flatMap((id) => titles.get(id) ?? []),
        look: lookLine(cause.nextLook),
        tried: triedLines(fold, cause),
        drawing: drawingOf(cause),
        judging: judgingLine(cause, causeToTitle(cause)),
        reopened: reopened.filter(({ judgement }) => isAbout(judgement, cause)).map((one) => reopenedLine(fold, one)),
        decision: decisionLine(fold, cause, causeToTitle(cause), decisions.ofCause(cause)),
      };
    }),
    nextLook: lookLine(found.nextLook),
    alone: found.alone,
    exact: found.exact,
    refused: found.judged
      .filter(({ state, judgement }) => state === 'stands' && !shownWith.has(judgement.event))
      .map(({ judgement }) => judgementToLine(judgement)),
    reopened: reopened.map((one) => reopenedLine(fold, one)),
  };
}

/** Where a look could change it: its places, what it predicts, what is asked next. */
export function triedLines(fold: Fold, { places, predicts, nextLook }: Cause): TriedLine[] {
  const asked = [...places, ...predicts.map(({ place }) => place), ...(nextLook ? [nextLook.place] : [])];
  return triedAt(fold, asked).map(({ place, author, at }) => ({ place: fold.wordsOf(place), by: author, at }));
}

function isAbout({ evidence }: Judgement, { explains }: Cause): boolean {
  return explains.some((id) => evidence.facts.includes(fingerprint(id)));
}

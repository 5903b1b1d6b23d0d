// What would be interrupted, in words: by the plan and by what was seen, apart from each other, each with its age. It
// ends with the caution of the place and never says that something may be pulled.

import { type Impact, impactOf } from '../impact/impact.ts';
import { type Link, type Links, plannedLinks, seenLinks, serviceOf } from '../impact/links.ts';
import type { CableId, UnitId } from '../plan/identity.ts';
import { type PlanIndex, placeToWords } from '../plan/planIndex.ts';
import type { Fold } from '../rules/fold.ts';
import type { GoesOff } from './words/airWords.ts';
import { beyondToWords } from './words/reportSentences.ts';

interface ReachLine {
  label: string;
  /** "PGM1 to processor, DIO22 O4 to PRO51 AES IN" */
  words: string;
  onAir: boolean;
  /** Time of the older look at its ends; null for the plan's word. */
  at: number | null;
}

export interface ReachWords {
  /** All that hangs on it, the air first. */
  lines: ReachLine[];
  goesOff: GoesOff;
  /** Units that lose the network. */
  cutOff: string[];
  /** Sentences: the network, what is not known, other paths. */
  remarks: string[];
}

export interface ReachView {
  plan: ReachWords;
  /** Null where nobody saw both ends of anything that hangs on it. */
  seen: ReachWords | null;
}

export function cableReach(fold: Fold, cable: CableId): ReachView {
  const [planned, seen] = [plannedLinks(fold), seenLinks(fold)];
  const found = seen.ofCable(cable);
  return {
    plan: toWords(fold, planned, planned.ofCable(cable)),
    seen: found.length > 0 ? toWords(fold, seen, found) : null,
  };
}

function toWords(fold: Fold, links: Links, opened: readonly Link[]): ReachWords {
  const { index } = fold;
  const reach = impactOf(fold, links, opened);
  return {
    lines: reach.affected.map(({ link }) => ({
      label: link.label,
      words: [link.circuit, `${placeToWords(index, link.from)} to ${placeToWords(index, link.to)}`]
        .filter(Boolean)
        .join(', '),
      onAir: link.onAir,
      at: link.at,
    })),
    goesOff: {
      onAir: new Set(reach.affected.flatMap(({ link }) => (link.onAir ? serviceOf(link) : []))).size,
      services: new Set(reach.affected.map(({ link }) => serviceOf(link))).size,
    },
    cutOff: (reach.network?.cutOff ?? []).map((unit) => index.units.get(unit)?.label ?? unit),
    remarks: remarksOf(index, reach),
  };
}

function remarksOf(index: PlanIndex, { network, unknownBehind, otherPaths }: Impact): string[] {
  const name = (unit: UnitId) => index.units.get(unit)?.label ?? unit;
  const remarks: string[] = [];
  if (network) {
    if (network.closesByRing) {
      remarks.push(
        network.isUplink
          ? 'The switches stay joined by another way; what crosses here stops until that way has taken over.'
          : 'It stays on the network by a second lead; what crosses here stops until that one has taken over.',
      );
    }
  }
  if (unknownBehind.length > 0) {
    remarks.push(beyondToWords(unknownBehind.map(name)));
  }
  for (const link of otherPaths.slice(0, 3)) {
    remarks.push(`Another path is ${link.circuit}, ${link.label}. Whether it would take over was not tried.`);
  }
  return remarks;
}

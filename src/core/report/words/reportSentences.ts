// What a report says in whole sentences, once for the screen and for the file, so that both say the same. Numbers come
// from the one count of the reconciliation; nothing here calls anything free of risk.

import { isHazard } from '../../trade/kinds.ts';
import type { Coverage } from '../coverage.ts';
import type { EvidenceLine } from '../evidenceView.ts';
import type { Reconciliation } from '../reconciliation.ts';
import type { ScopePart } from '../walk/scopeView.ts';
import { counted, listed } from './plain.ts';
import { BASIS_WORDS } from './recordWords.ts';

/** How an entry was come by: a label read off a picture is not a look with the eye at the place. */
export function evidenceToWords({ basis, photo }: Pick<EvidenceLine, 'basis' | 'photo'>): string {
  return photo ?? BASIS_WORDS[basis];
}

/** "rack R3": what may be added to an audit. */
export function partToWords({ type, label }: Pick<ScopePart, 'type' | 'label'>): string {
  switch (type) {
    case 'rack':
      return `rack ${label}`;
    case 'room':
      return `room ${label}`;
    case 'unit':
      return `unit ${label}`;
  }
}

export const CLOSING_WORDS =
  'This report tells what was seen, by whom and when. It never says that anything may be pulled, plugged or touched ' +
  'without risk: what was true then may have changed since. Local codes, permits and licensed trades come first.';

/** The whole audit in one breath; `main` is the part that the eye should find first. */
export function wholeToWords({ coverage: c, lines }: Reconciliation): { before: string; main: string; after: string } {
  const hazards = lines.filter(isHazard).length;
  const onAir = lines.filter(({ severity }) => severity === 'on-air').length;
  const risks = [
    hazards > 0 && `${counted(hazards, 'finding')} can harm people or equipment`,
    onAir > 0 && `${counted(onAir, 'finding affects', 'findings affect')} the air`,
  ].filter(Boolean);
  const harm = risks.length > 0 ? ` ${risks.join('; ')}.` : '';
  if (c.cables === 0)
    return {
      before: `No planned cable ends here. Of ${counted(c.places, 'jack')},`,
      main: `${counted(c.seen, 'was', 'were')} looked at.`,
      after: `${counted(lines.length, 'difference')}.${harm}`,
    };
  return {
    before: `Of ${counted(c.cables, 'cable')},`,
    main: `${counted(c.bothEnds, 'is', 'are')} where the plan says, at both ends.`,
    after: `${counted(c.differ, 'differs', 'differ')}.${harm}`,
  };
}

interface CountWords {
  n: number;
  words: string;
  mark: 'as-planned' | 'differs' | 'not-seen' | 'could-not-see';
}

/** Every cable is in exactly one of these. */
export function cableCounts(c: Coverage): CountWords[] {
  const all: CountWords[] = [
    { n: c.bothEnds, words: 'as planned at both ends', mark: 'as-planned' },
    { n: c.differ, words: 'differ', mark: 'differs' },
    { n: c.oneEnd, words: 'seen at one end', mark: 'not-seen' },
    { n: c.notSeen, words: 'not seen', mark: 'not-seen' },
    { n: c.cablesNotVerified, words: 'could not be checked', mark: 'could-not-see' },
  ];
  return all.filter(({ n }) => n > 0);
}

export function coverageToWords(c: Coverage): string {
  const open = c.places - c.seen;
  const all = `Looked at ${c.seen} of ${counted(c.places, 'jack')}.`;
  if (open === 0) return all;
  const refused = c.notVerified > 0 ? ` ${c.notVerified} of them could not be checked.` : '';
  return `${all} Nothing is known about the other ${open}.${refused}`;
}

/** Units behind which nothing says how the signal goes on. */
export function beyondToWords(units: readonly string[]): string {
  return `Where the signal goes after ${listed(units)} is not known: the routes are not in the plan.`;
}

/** Places that were not looked at, by reason, the longest list first; the order inside is the walk's. */
export function notLookedByReason(rows: Reconciliation['notLooked']): { reason: string; places: string[] }[] {
  const groups = new Map<string, string[]>();
  for (const { place, reason } of rows) {
    const key = reason.trim().replace(/:$/, '');
    const group = groups.get(key);
    if (group) group.push(place);
    else groups.set(key, [place]);
  }
  return [...groups]
    .map(([reason, places]) => ({ reason, places }))
    .sort((a, b) => b.places.length - a.places.length || (a.reason < b.reason ? -1 : 1));
}

/** A name may repeat, the beginning of the hash tells two plans apart. */
export function planToWords({ name, revision }: Pick<Reconciliation['plan'], 'name' | 'revision'>): {
  name: string;
  hash: string;
} {
  return { name: name || 'Plan without a name', hash: revision ? revision.slice(0, 10) : 'no revision' };
}

/** Who moved a running audit to another revision; empty where nobody did. @param when A time in words. */
export function movesToWords({ moves }: Reconciliation['plan'], when: (at: number) => string): string {
  const [first, ...others] = moves.map(
    ({ author, at, name }) => `${name || 'a plan without a name'}, by ${author}, ${when(at)}`,
  );
  if (first === undefined) return '';
  const apart = others.length === 0 ? '' : ` At the same time to ${others.join('; ')}: the later move counts.`;
  return `Moved to ${first}.${apart}`;
}

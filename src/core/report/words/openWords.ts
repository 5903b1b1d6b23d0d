// Why a place is still open, in the list of what was not looked at and of what waits for a maintenance window; how long
// the rest may take; a value that differs from nothing.
import type { PlaceState } from '../../record/looks.ts';
import type { Pace } from '../walk/pace.ts';
import { counted } from './plain.ts';

export function notLookedToWords({ type, looks, reason }: PlaceState): string {
  const [first] = looks;
  if (type !== 'not-verified') return 'not looked at';
  if (first?.state === 'refused') return reason ? `not checked: ${reason}` : 'not checked: no permission or no access';
  if (first?.basis === 'inferred') return reason ?? 'inferred';
  return first?.reason ? `could not be seen: ${first.reason}` : 'could not be seen';
}

/** What is owed at a place in a window, and why it was not done before; null where nothing is. */
export function owedToWords({ type, looks }: PlaceState): { owed: string; why: string } | null {
  const look = looks.at(-1);
  switch (type) {
    case 'not-verified':
      return {
        owed: 'A check',
        why: look?.reason || (look?.state === 'refused' ? 'not checked' : 'could not be seen'),
      };
    case 'unlabelled':
      return { owed: 'A label', why: 'the plug has none' };
    case 'illegible':
      return { owed: 'A label', why: 'the one on it cannot be read' };
    case 'plugged':
      return { owed: 'A check of its label', why: 'the label was not in view' };
    case 'label':
    case 'empty':
    case 'blanked':
    case 'conflict':
    case 'unseen':
      return null;
  }
}

/** "About 40 min at the pace so far, an estimate from 18 entries." Null where nothing can be said. */
export function paceToWords(pace: Pace | null, left: number): string | null {
  if (!pace || left === 0) return null;
  const minutes = Math.max(1, Math.round((pace.each * left) / 60_000));
  const hours = minutes < 600 ? Math.round(minutes / 6) / 10 : Math.round(minutes / 60);
  const time = minutes < 60 ? `${minutes} min` : `${hours} h`;
  return `About ${time} at the pace so far, an estimate from ${counted(pace.statements, 'entry', 'entries')}.`;
}

/** @param how `hidden`: in a blind audit nothing is said of the plan. */
export function valueToWords(
  { where, name, value }: { where: string; name: string; value: string },
  how: 'as-planned' | 'not-planned' | 'hidden',
): string {
  switch (how) {
    case 'as-planned':
      return `${where}, ${name}: ${value}, as planned.`;
    case 'not-planned':
      return `${where}, ${name}: ${value}. The plan has no value to compare.`;
    case 'hidden':
      return `${where}, ${name}: ${value}.`;
  }
}

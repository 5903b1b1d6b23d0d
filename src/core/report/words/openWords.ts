// Why a place is still open: in the list of what was not looked at, and of what waits for a maintenance window.
import type { PlaceState } from '../../record/looks.ts';

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

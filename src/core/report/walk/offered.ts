// What the walk offers to say of a jack, and in which order it visits those of a face. In a blind audit nothing of the
// plan is offered before the jack was spoken about.
import type { JackView, WalkView } from './walkView.ts';

/** What stands at the thumb. In a blind audit nothing does, and where the plan has no cable it is "Empty". */
export type Primary = { type: 'none' } | { type: 'reads'; label: string } | { type: 'empty' };

export function primaryAt(view: Pick<WalkView, 'blind' | 'current' | 'occasion' | 'hasPlan'>): Primary {
  if (view.blind) return { type: 'none' };
  if (view.current.plan !== null) return { type: 'reads', label: view.current.plan };
  // Where nothing is planned an empty jack agrees with nothing: it is said like any other state.
  return view.occasion === 'inherit' || !view.hasPlan ? { type: 'none' } : { type: 'empty' };
}

/** Leaves a jack as the drawing may show it: in a blind audit the plan goes until the jack was spoken about. */
export function withoutPlan(jack: JackView): JackView {
  const { plan: _, ...rest } = jack;
  return jack.state === 'unseen' ? { ...rest, mark: undefined } : jack;
}

/** The jacks of a face in the order this walk visits them. */
export function visitingOrder({ rows, order }: WalkView['face']): JackView[] {
  const jacks = new Map(rows.flat().map((jack) => [jack.place, jack]));
  return order.flatMap((place) => jacks.get(place) ?? []);
}

/**
 * Where no plan tells what stands here: the number after the one read at the jack before, as a series is numbered along a
 * row. Null in a blind audit, where nothing is offered, and where that number was read on this face already.
 */
export function nextNumber({ face, current, blind }: Pick<WalkView, 'face' | 'current' | 'blind'>): string | null {
  if (blind) return null;
  const jacks = visitingOrder(face);
  const before = jacks[jacks.findIndex(({ place }) => place === current.place) - 1];
  const [, letters = '', digits] =
    /^(.*?)(\d{1,9})$/s.exec(before?.state === 'label' ? (before.found ?? '') : '') ?? [];
  if (digits === undefined) return null;
  const next = letters + String(Number(digits) + 1).padStart(digits.length, '0');
  return jacks.some(({ found }) => found === next) ? null : next;
}

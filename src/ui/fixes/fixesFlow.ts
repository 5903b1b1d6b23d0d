// Where somebody stands in a piece of work: which steps are done, whether they are on the way back. Pure; the screen
// keeps it as a draft, so that a phone that was put away knows it again. It changes nothing in the record.
import type { AuditId } from '../../core/plan/identity.ts';
import type { FixBlockView, FixesView } from '../../core/report/fixesView.ts';

export interface UnderWay {
  /** As it was when it was begun: looks that come in meanwhile change the list, not the work in hand. */
  block: FixBlockView;
  /** Steps done of it. */
  done: number;
  /** Steps gone back; null while it goes forward. */
  back: number | null;
}

export const draftKey = (audit: AuditId) => `fixes ${audit}` as const;

export function begin(block: FixBlockView): UnderWay {
  return { block, done: 0, back: null };
}

/** All that leads back from here, the last step first. */
export function wayBack({ block, done }: UnderWay): string[] {
  return block.steps
    .slice(0, done)
    .reverse()
    .flatMap(({ back }) => back);
}

/** One step on, forward or back; null when the way back has been gone to its end. */
export function stepOn(one: UnderWay): UnderWay | null {
  if (one.back === null) return { ...one, done: Math.min(one.done + 1, one.block.steps.length) };
  return one.back + 1 < wayBack(one).length ? { ...one, back: one.back + 1 } : null;
}

/** Turns round; null when nothing was changed yet, so that there is nothing to go back from. */
export function turnBack(one: UnderWay): UnderWay | null {
  return wayBack(one).length > 0 ? { ...one, back: 0 } : null;
}

export function isFinished({ block, done, back }: UnderWay): boolean {
  return back === null && done >= block.steps.length;
}

/** All that goes off at some step, each once, by name. */
export function servicesOf({ blocks }: Pick<FixesView, 'blocks'>): string[] {
  return [...new Set(blocks.flatMap(({ steps }) => steps.flatMap(({ interrupts }) => interrupts)))];
}

/** The first piece that may be done now; hazards and looks before work. */
export function firstOpen(view: FixesView): number {
  return Math.max(
    0,
    view.blocks.findIndex(({ waits }) => waits === null),
  );
}

/** May hands begin here, or is it a look or a word to somebody? */
export function isHandsOn({ steps, waits }: FixBlockView): boolean {
  return waits === null && steps.some(({ action, back }) => back.length > 0 || action === 'mend');
}

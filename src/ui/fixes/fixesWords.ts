// The one catalogue of the work to do: what its screen says, whole sentences, with numbers and names as arguments.
// It decides nothing and calls nothing free of risk.
import type { FixBlockView, FixesView } from '../../core/report/fixesView.ts';
import { goesOffToWords } from '../../core/report/words/airWords.ts';
import { count } from '../words.ts';

export const FIX_WORDS = {
  title: 'Work to do',
  missing: 'This audit is not on this phone, or its plan has not arrived yet.',
  fetch: 'Send and receive fetches both.',
  plugs: 'Plugs',
  offAir: 'Off air',
  dependOnIt: 'Depend on it',
  waiting: 'Waiting',
  lookAgain: 'Look again',
  allLookedAt: 'All looked at',
  finish: 'Finish',
  done: 'Done',
  rolledBack: 'Rolled back',
  asFound: 'As it was found',
  nextStep: 'Next step',
  stop: 'Stop',
  nothingChanged: 'Nothing changed yet',
  rollBack: 'Roll back',
  leaveIt: 'Leave it',
  doNotRollBack: 'Do not roll back',
  goOn: 'Go on',
  onlyInWindow: 'Only in the maintenance window',
  begin: 'Begin',
  notNow: 'Not now; see it',
  goThere: 'Go there',
  theJack: 'The jack',
  next: 'Next',
  theAudit: 'The audit',
  walkOn: 'Walk on',
  changed: 'The list has changed since this was begun. Finish it, or roll it back.',
  inHand: 'In hand',
  inOrder: 'In order',
  noWork: 'No work to do.',
  nothingDiffers: 'Nothing differs so far.',
  stepInHand: 'Step in hand',
  rollingBack: 'Rolling back',
  airMeanwhile: 'Goes off the air meanwhile',
  offMeanwhile: 'Goes off meanwhile',
  listenAgain: 'When it is as found, listen to the air again.',
  allChecked: 'Done, and every place was checked again.',
  doneLook: 'Done. Look again.',
  nothingToLook: 'Nothing to look at again.',
  finishIt: 'Finish it; what still differs comes back as work.',
  recordIt: 'Look at each place and record what is there now. Only that counts in the report.',
  checkedAgain: 'Checked again',
  openWalk: 'Open the walk here',
  offAirShort: 'off air',
  recordShown: 'Record what it shows',
  check: (place: string) => `Check ${place}`,
  backToWork: 'Back to the work',
} as const;

export const TYPE_WORDS: Record<FixBlockView['type'], string> = { hazard: 'Hazard', look: 'Check or ask', work: '' };

export function stepOf(n: number, of: number, waits: boolean): string {
  const step = of > 1 ? `Step ${n} of ${of}` : count(1, 'step');
  return waits ? `${step}, waiting` : step;
}

export const rollingBackOf = (n: number, of: number): string => `Rolling back: step ${n} of ${of}`;

export const thenToWords = (steps: readonly string[]): string => `Then: ${steps.join(' ')}`;

export const onlyIn = (window: string): string => `Only in the maintenance window: ${window}.`;

export const moreServices = (n: number): string => `and ${count(n, 'more service', 'more services')}`;

export const dependsOnIt = (n: number): string => `What depends on it: ${count(n, 'service')}`;

export const nthOf = (n: number, of: number): string => `${n} of ${of}`;

export function restToWords({ record, left }: Pick<FixesView, 'record' | 'left'>): string {
  return `${count(record, 'difference')} to update in the plan, ${count(left, 'difference')} left as found.`;
}

export function airToWords({ onAir }: FixesView['totals'], depends: number): string {
  return goesOffToWords({ onAir, services: depends });
}

/** Where the plan knows of nothing, a bare 0 would say that nothing goes off. */
export const dependToBig = (n: number): string => (n > 0 ? count(n, 'service') : 'None known');

export const recordTestAt = (place: string): string => `Record the test at ${place}`;

/** "21 steps, 4 plug movements. Nothing marked on-air; 10 services depend on it. Estimated time: 40 minutes." */
export function totalsToWords({ totals, waiting }: Pick<FixesView, 'totals' | 'waiting'>, depends: number): string {
  return [
    `${count(totals.steps, 'step')}, ${count(totals.movements, 'plug movement')}.`,
    airToWords(totals, depends),
    `Estimated time: ${count(totals.minutes, 'minute')}.`,
    waiting > 0 ? `${count(waiting, 'job waits and keeps its place', 'jobs wait and keep their place')}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}

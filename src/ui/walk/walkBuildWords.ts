// What is said of the work at an end: its stages, what comes next, what is left.
import type { WorkStage } from '../../core/record/events.ts';
import type { EndOfWork, WorkView } from '../../core/report/workView.ts';

export const BUILD_WORDS = { done: 'done' } as const;

interface StageWords {
  title: string;
  next: string;
  /** What was done to a cable. */
  act: (cable: string) => string;
}

const PLUGGED: StageWords = { title: 'Plugged', next: 'to plug', act: (cable) => `${cable} plugged` };
const LANDED: StageWords = { title: 'Landed', next: 'to land', act: (cable) => `${cable} landed` };
const PULLED: StageWords = { title: 'Pulled', next: 'to pull', act: (cable) => `${cable} pulled` };
const TESTED: StageWords = { title: 'Tested', next: 'to test', act: (cable) => `${cable} tested` };
const LABELLED: StageWords = { title: 'Labelled', next: 'to label', act: (cable) => `${cable} labelled` };

/** A wire is landed, a plug is plugged. */
export const STAGES: Record<WorkStage, (wires: boolean) => StageWords> = {
  pulled: () => PULLED,
  landed: (wires) => (wires ? LANDED : PLUGGED),
  tested: () => TESTED,
  labelled: () => LABELLED,
};

export const failedAct = (cable: string): string => `${cable} tested, failed`;

export const actAtToWords = (place: string, act: string): string => `${place}: ${act}.`;

export function nextToWords({ next, wires }: Pick<EndOfWork, 'next' | 'wires'>): string | null {
  return next && STAGES[next](wires).next;
}

/** Where an end is that is not done, and how its test went. */
export function endLeftToWords({ words, test }: WorkView['left'][number]): string {
  if (test?.result !== 'fail') return words;
  return test.words ? `${words}; test failed: ${test.words}` : `${words}; test failed`;
}

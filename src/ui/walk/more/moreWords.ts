// What the rows of More are called and what they lead to. Texts only.
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { PERMISSION_WORDS } from '../../../core/report/words/recordWords.ts';
import { count } from '../../words.ts';
import { RANGE_WORDS } from '../walkRangeWords.ts';
import type { RowId } from './moreFirst.ts';

export type GroupName = 'say' | 'build' | 'go' | 'labels' | 'describe' | 'photos' | 'audit';

export const MORE_GROUPS: Record<GroupName, string> = {
  say: 'More about this jack',
  build: 'Build',
  go: 'Go elsewhere',
  labels: 'Labels',
  describe: 'Describe',
  photos: 'Photos and voice',
  audit: 'This audit',
};

export const moreAt = (place: string): string => `More at ${place}`;

interface RowWords {
  title: string;
  second?: string;
  right?: string;
}

export function moreWords({ leftAll, current, unit, permission }: WalkView): Record<RowId, RowWords> {
  return {
    range: { title: RANGE_WORDS.title, second: RANGE_WORDS.what },
    plugged: { title: 'Plugged, label not in view' },
    blanked: { title: 'Blanked', second: 'A blanking plug or plate: nothing can be plugged in.' },
    refused: { title: 'Not checked', second: 'No permission or no access; say why.' },
    hazard: { title: 'Hazard seen', second: 'Mains, earth, strain, fibre, height and more.' },
    work: { title: 'Work on this end', second: 'Pulled, plugged or landed, tested, labelled.' },
    'left-to-build': {
      title: 'What is left to build',
      second: 'Ends still to do, nearest first; changes and lash-ups.',
    },
    ends: { title: 'Which ends are left?', second: 'The nearest open end, and how long the rest may take.' },
    jump: { title: 'Go to another unit', second: `${count(leftAll, 'jack')} to go in all` },
    way: { title: 'Walking order', second: 'Along the jacks or along the cables; racks, front or rear.' },
    radio: {
      title: 'Far end by radio',
      second: 'One question at a time for a helper; the answer is recorded as told, by name.',
    },
    first: { title: 'Label first', second: 'Read any cable in the bundle, then touch the jack where it goes.' },
    next: { title: 'Next jack, record nothing' },
    previous: { title: 'Previous jack' },
    // Its own row tells what is still to be done.
    twins: { title: '' },
    jacket: {
      title: 'Jacket and metre mark',
      second: 'Text and running number along the cable: which other end fits, without touching.',
    },
    part: {
      title: 'Adapter or tail here',
      second: `What is plugged into ${current.jack}; its sockets are walked after ${unit.label}.`,
    },
    lead: { title: 'Patch lead', second: 'From jack to jack on the drawing; or no leads in this bay.' },
    colour: {
      title: 'Landed in colour order',
      second: 'Pairs, fibres, cores: in order, dead, spare, crossed, followed.',
    },
    panel: { title: 'Panel, block or trunk' },
    power: { title: 'Power', second: 'Feed, strip, supply; where a cord goes. Look only.' },
    'new-unit': {
      title: 'A unit or rack that the plan does not have',
      second: 'Its place and its jacks; you then walk them like the others.',
    },
    'unit-here': { title: 'What unit is here', second: 'What is in a rack position.' },
    loose: { title: 'Loose end', second: 'A cable that is in no jack.' },
    setting: { title: `Read off ${unit.label}`, second: 'A setting from its page, screen or knobs.' },
    window: { title: 'For the maintenance window', second: 'What needs hands on, a key or another time, and why.' },
    permission: { title: 'What you may do', right: PERMISSION_WORDS[permission].text },
    renaming: { title: 'Renaming', second: 'Old and new names, what is half done, import a list.' },
    scope: {
      title: 'Add a rack, room or unit',
      second: 'This audit covers more from now on; the report says who added it.',
    },
    finish: { title: 'Close the audit' },
  };
}

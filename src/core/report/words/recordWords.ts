// What the record's own words are called by people: states of a jack, permissions, ways of knowing, fates. The one
// table of each; what is made of them in sentences stands with its reader.
import type { Basis, Permission, State, WorkStage } from '../../record/events.ts';
import type { Fate } from '../../record/looks.ts';

/** `brief` beside the jack in a verdict or a list of acts, `full` where it stands alone and as what was seen. */
export const STATE_WORDS: Record<State, { brief: string; full: string }> = {
  label: { brief: 'label read', full: 'label read' },
  unlabelled: { brief: 'no label', full: 'plugged, no label' },
  illegible: { brief: 'cannot be read', full: 'label cannot be read' },
  plugged: { brief: 'plugged, label not in view', full: 'plugged, label not in view' },
  empty: { brief: 'empty', full: 'empty' },
  blanked: { brief: 'blanked', full: 'blanked' },
  'not-visible': { brief: 'cannot be seen', full: 'could not be seen' },
  refused: { brief: 'not checked', full: 'not checked' },
};

interface PermissionWords {
  /** What is chosen. */
  text: string;
  /** What it allows and what not. */
  second: string;
  /** All that it allows. */
  all: string;
  /** "Permission to …". */
  act: string;
}

export const PERMISSION_WORDS: Record<Permission, PermissionWords> = {
  look: {
    text: 'Look',
    second: 'Eyes only. Nothing is moved, bent or turned to read it.',
    all: 'look',
    act: 'look',
  },
  touch: {
    text: 'Touch',
    second: 'A label may be turned, a bundle held aside. No plug moves.',
    all: 'look and touch',
    act: 'touch',
  },
  disconnect: {
    text: 'Unplug',
    second: 'A plug may come out, one at a time, with the control room told.',
    all: 'look, touch and unplug',
    act: 'unplug',
  },
};

export const BASIS_WORDS: Record<Basis | WorkStage, string> = {
  seen: 'by eye',
  followed: 'followed',
  page: 'read from the unit’s page',
  told: 'told',
  inferred: 'inferred',
  pulled: 'pulled',
  landed: 'plugged or landed',
  tested: 'tested',
  labelled: 'labelled',
};

/** What became of an entry; one that stands needs no word. */
export const FATE_WORDS: Record<Fate, string> = {
  stands: '',
  withdrawn: 'withdrawn',
  overtaken: 'changed since',
};

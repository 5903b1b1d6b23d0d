// The kinds of what this phone keeps beside the record, each with what a person calls it. A key begins with the name of
// its kind. Words only; the schemas stand beside the screens.

export const DRAFT_NAMES = {
  walk: 'Where the walk stood, what can be undone and the question that was open',
  range: 'The row half chosen',
  way: 'The walking order',
  photo: 'The photo that was started',
  'photo-caution': 'That the warning about photos was read',
  voice: 'The voice note that was started',
  typed: 'The label that was being typed',
  pattern: 'The worn label that was being typed',
  note: 'The note that was being typed',
  check: 'The answer to a check that was being typed',
  'setting-name': 'The name of the setting that was being typed',
  'setting-value': 'The value of the setting that was being typed',
  jacket: 'The print along a jacket that was being typed',
  mark: 'The running length that was being typed',
  'jacket-note': 'The note on a jacket that was being typed',
  'loose-where': 'The place of a loose end that was being typed',
  'loose-label': 'The label of a loose end that was being typed',
  'unit-here': 'The name of the unit that was being typed',
  finish: 'The remark on the end of the walk',
  refused: 'The reason that was being typed',
  hazard: 'The note on a hazard that was being typed',
  change: 'The reason of a change that was being typed',
  'change-until': 'The end of a change that was being typed',
  tested: 'The note on a test that was being typed',
  radio: 'The name of the helper',
  'radio-label': 'The label told by radio that was being typed',
  'camera-was-started': 'That the camera was in use',
  part: 'The adapter or tail that was being described',
  panel: 'The panel, block or trunk that was being described',
  lead: 'The patch lead that was being entered',
  power: 'The power part that was being described',
  colours: 'The pairs that were being entered',
  'describe-rack': 'The rack that was being described',
  'describe-unit': 'The unit that was being described',
  'name-later': 'That the question for your name was put off',
  'name-typed': 'Your name that was being typed',
  settings: 'The settings of this phone, your name with them',
  'start-audit': 'The audit that was being set up',
  'bring-in': 'Answers about a schedule',
  'sheet-shapes': 'The columns chosen for earlier schedules',
  'sheets-settled': 'Answers about the schedules in use',
  'site-rules': 'The station’s rules that were being changed',
  renaming: 'The list of names that was being imported',
  'renaming-over': 'The hand-over that was being typed',
  tired: 'That the warning about long hours was read',
  close: 'The remark on closing the audit',
  'make-plan': 'The name of the plan that was being made',
  window: 'The window that was being agreed',
  fixes: 'The step of the work that was open',
  sign: 'The reason that was being signed',
  'twin-strips': 'Which strips of temporary tags were printed',
  'photo-typed': 'The label that was being typed off a photo',
} as const;

type DraftName = keyof typeof DRAFT_NAMES;
export type KeyOf<N extends DraftName> = N | `${N}${':' | ' '}${string}`;
export type DraftKey = KeyOf<DraftName>;

/** What a person calls it; a key of another build has no words here. */
export function keyToWords(key: string): string {
  const [name = ''] = key.split(/[: ]/, 1);
  return Object.hasOwn(DRAFT_NAMES, name) ? DRAFT_NAMES[name as DraftName] : 'Something another version kept';
}

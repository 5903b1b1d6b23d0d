// Renamings that are begun and not done, as work: the new label on at every end, then the old one off, then pages and
// strips. What is left is told by the renaming itself; one that nobody has begun is none of this list.

import type { PlaceId } from '../plan/identity.ts';
import { halfDone, type RenameSetting, type RenameStatus } from '../renaming/renaming.ts';
import type { Fold } from '../rules/foldView.ts';
import type { Moved } from './cures.ts';
import type { Interruption, Interruptions } from './interrupts.ts';
import { type Group, makeStep, type Step } from './step.ts';

export function renameGroups(fold: Fold, moved: Moved, off: Interruptions): Group[] {
  return halfDone(fold).flatMap((status) => renameGroup(fold, status, moved, off));
}

function renameGroup(fold: Fold, status: RenameStatus, moved: Moved, off: Interruptions): Group[] {
  const { ends, settings, clash } = status;
  const rename = { old: status.old, new: status.new };
  const group = (type: Group['type'], steps: Step[], listens = false): Group[] =>
    steps.length === 0 ? [] : [{ type, steps, about: [], listens }];
  const [begun] = ends.flatMap(({ place, newOn }) => (newOn && place !== null ? [place] : []));
  // Two lists want different names: a person takes one of them back before a further label goes on.
  if (clash) return group('look', [makeStep(fold, 'ask', 'decide', { to: begun ?? null, label: status.old, rename })]);
  const unclear = ends.filter((end) => end.unclear && end.place !== null);
  if (unclear.length > 0) {
    const prove = { label: status.old, how: 'follow' as const, rename };
    return unclear.flatMap(({ place }) => group('look', [makeStep(fold, 'test', 'prove', { ...prove, to: place })]));
  }
  const label = (task: 'label-put' | 'label-off', place: PlaceId, text: string) =>
    makeStep(fold, 'relabel', task, { to: moved(place), label: text, rename });
  const missing = ends.filter(({ newOn }) => newOn === null);
  // A label goes on no plug that nobody has read: the end is looked for first.
  const sought = missing.filter(({ oldOn }) => !oldOn);
  const looks = sought.flatMap(({ place }): Group[] => {
    const isUnseen = place !== null && !fold.isSaid(place);
    if (isUnseen)
      return group('look', [makeStep(fold, 'test', 'far-end', { to: place, label: status.old, how: 'look', rename })]);
    return group('look', [
      makeStep(fold, 'test', 'prove', { to: begun ?? null, label: status.old, how: 'follow', rename }),
    ]);
  });
  const put = missing.flatMap(({ place, oldOn }) => (oldOn && place ? [label('label-put', place, status.new)] : []));
  // While one end has only the old name, the old name stays on the others.
  const isWhole = sought.length === 0;
  const old = isWhole ? ends.filter(({ oldOn }) => oldOn) : [];
  const taken = old.flatMap(({ place }) => (place === null ? [] : [label('label-off', place, status.old)]));
  const pages = isWhole ? settings.filter(({ done }) => !done).map((one) => pageStep(fold, one, rename, off)) : [];
  // A page may carry a service by its name: listened to like any setting that is changed.
  return [...looks, ...group('work', [...put, ...taken, ...pages], pages.length > 0)];
}

function pageStep(fold: Fold, one: RenameSetting, rename: NonNullable<Step['rename']>, off: Interruptions): Step {
  const { unit, place, name } = one;
  const carries: Interruption = place ? off.ofPlace(place) : off.ofUnit(unit);
  const isOnAir = carries.interrupts.some(({ onAir }) => onAir);
  const value = { name, now: fold.settings.valueOf({ unit, place, name }) ?? one.old, to: one.new };
  const more = { ...carries, ...(isOnAir ? { needs: 'disconnect' as const } : {}) };
  return makeStep(fold, 'set', 'value', { to: place ?? unit, value, rename, ...more });
}

// What is due next at one jack of a renaming: a look, a label on, a label off. It never offers a step before its time.

import type { EventId, PlaceId } from '../plan/identity.ts';
import { saysNew, saysOld } from '../record/renameNames.ts';
import { endAtPlace, renameAt } from '../renaming/renameAt.ts';
import type { RenameEnd, RenameStatus } from '../renaming/renaming.ts';
import type { Fold } from '../rules/fold.ts';
import { isOccupied } from '../rules/placeDiscrepancies.ts';
import type { LabelStatement } from './question.ts';

/**
 * `look`: nothing was read here yet; `plan`: something is to do and hands may not; `put`: the new label goes on;
 * `wait`: it is on, another end is not; `off`: all ends bear it, the old one comes off.
 */
export type RenameStep = 'look' | 'plan' | 'put' | 'wait' | 'off' | 'settings' | 'done' | 'unclear' | 'clash';

interface RenameHere {
  status: RenameStatus;
  end: RenameEnd;
  step: RenameStep;
  /** Looks that a label act here speaks about. */
  upon: EventId[];
  plug: number | null;
  /** The old label exactly as it was read, to be taken off. */
  oldText: string | null;
}

/** Null where no rename is listed, and in a blind audit until the jack was spoken about. */
export function renameHere(fold: Fold, place: PlaceId): RenameHere | null {
  if (fold.started?.payload.blind === true && !fold.isSaid(place)) return null;
  const status = renameAt(fold, place);
  const end = status && endAtPlace(status, place);
  if (!status || !end) return null;
  const state = fold.stateAt(place);
  const reading = fold.readingsAt(place).find((one) => one.cable === status.cable);
  const plug = reading ? state.plugs.indexOf(reading.plug) : -1;
  return {
    status,
    end,
    step: stepOf(fold, status, end, place),
    upon: state.looks.map(({ event }) => event),
    plug: plug > 0 ? plug : null,
    oldText: reading?.plug.labels.find(({ text }) => saysOld(fold.index, text, status))?.text ?? null,
  };
}

const DUE: ReadonlySet<RenameStep> = new Set(['put', 'off', 'unclear']);

/** Something is to be done with the labels of a jack that was spoken about. */
export function isRenameDue(fold: Fold, place: PlaceId): boolean {
  const status = fold.isSaid(place) ? renameAt(fold, place) : null;
  const end = status && endAtPlace(status, place);
  return status !== null && end !== null && DUE.has(stepOf(fold, status, end, place));
}

/** The label act that is due; null where none is. */
export function dueLabel(fold: Fold, place: PlaceId): LabelStatement | null {
  const here = renameHere(fold, place);
  if (here?.step === 'put') return labelPut(here, place, here.status.new);
  if (here?.step !== 'off' || here.oldText === null) return null;
  return { kind: 'label-off', payload: { ...targetOf(here, place), text: here.oldText } };
}

/** What a text read here is to the renaming: its new label put on, one that was read before, or none of its business. */
export function renameReading(fold: Fold, place: PlaceId, text: string): LabelStatement | 'again' | null {
  const here = renameHere(fold, place);
  if (!here) return null;
  const isNew = saysNew(fold.index, text, here.status);
  if (!isNew && !saysOld(fold.index, text, here.status)) return null;
  if (isNew && here.step === 'put') return labelPut(here, place, text.trim());
  const isBorne = here.end.bears.some((label) => label.trim() === text.trim());
  return isBorne && here.step !== 'look' ? 'again' : null;
}

function labelPut(here: RenameHere, place: PlaceId, text: string): LabelStatement {
  return { kind: 'label-put', payload: { ...targetOf(here, place), text, why: 'rename' } };
}

function targetOf({ upon, plug }: RenameHere, place: PlaceId) {
  return plug === null ? { place, upon } : { place, upon, plug };
}

function stepOf(fold: Fold, status: RenameStatus, end: RenameEnd, place: PlaceId): RenameStep {
  const touch = fold.permission !== 'look';
  if (status.clash) return 'clash';
  if (end.unclear) return 'unclear';
  if (end.newOn === null) {
    const other = fold.readingsAt(place).some(({ cable }) => cable !== status.cable);
    if (!isOccupied(fold.stateAt(place)) || other) return 'look';
    return touch ? 'put' : 'plan';
  }
  if (status.ends.some((one) => one.newOn === null)) return 'wait';
  if (end.oldOff === null) return touch ? 'off' : 'plan';
  if (status.ends.some((one) => one.oldOff === null)) return 'wait';
  return status.state === 'done' ? 'done' : 'settings';
}

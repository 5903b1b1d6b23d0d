// Label acts of a renaming during the walk: what the jack in hand needs next, and what a tap or a reading of the new
// label records. It decides nothing itself; the record worker says which step is due.
import { type Signal, signal } from '@preact/signals';
import type { Payload } from '../../core/audit/events.ts';
import type { JackRename } from '../../core/report/renamingView.ts';
import type { HalfDone } from '../../wire/pageRenaming.ts';
import type { Recorded, Services } from '../services.ts';

export interface RenamingFlow {
  here: Signal<JackRename | null>;
  half: Signal<HalfDone | null>;
  refresh(place: string): Promise<void>;
  /** True when the text was dealt with: the new label read at its jack is on, one read again says nothing new. */
  scanned(place: string, text: string): Promise<boolean>;
  /** "New label is on" and "Old one is off", where that is the step that is due. */
  act(place: string): Promise<void>;
}

export interface RenamingDeps {
  services: Services;
  audit: string;
  /** After a label act: the verdict, the undo, the next jack. */
  acted(result: Recorded, place: string, words: string): Promise<void>;
  /** What the jack says now, when nothing was to be recorded. */
  showVerdict(place: string): Promise<void>;
}

export function createRenaming({ services, audit, acted, showVerdict }: RenamingDeps): RenamingFlow {
  const here = signal<JackRename | null>(null);
  const half = signal<HalfDone | null>(null);
  let asking = 0;

  async function put(step: JackRename, text: string): Promise<void> {
    const payload: Payload<'label-put'> = { ...target(step), text, why: 'rename' };
    await acted(await services.record('label-put', payload, { audit }), step.place, `new label ${text}`);
  }

  async function takeOff(step: JackRename, text: string): Promise<void> {
    const payload: Payload<'label-off'> = { ...target(step), text };
    await acted(await services.record('label-off', payload, { audit }), step.place, `old label ${text} off`);
  }

  return {
    here,
    half,
    async refresh(place) {
      const mine = ++asking;
      const [nextHere, nextHalf] = await Promise.all([
        services.ask('renamingHere', { audit, place }),
        services.ask('renamingHalf', { audit }),
      ]);
      if (mine !== asking) return;
      here.value = nextHere;
      half.value = nextHalf;
    },
    async scanned(place, text) {
      const read = await services.ask('renamingReads', { audit, place, text });
      if (!read) return false;
      if (read.says === 'new' && read.here.step === 'put') {
        await put(read.here, text.trim());
        return true;
      }
      if (!read.borne || read.here.step === 'look') return false;
      await showVerdict(place);
      return true;
    },
    async act(place) {
      const step = await services.ask('renamingHere', { audit, place });
      if (step?.step === 'put') await put(step, step.new);
      else if (step?.step === 'off' && step.oldText !== null) await takeOff(step, step.oldText);
    },
  };
}

function target(step: JackRename) {
  const { place, upon, plug } = step;
  return plug === null ? { place, upon } : { place, upon, plug };
}

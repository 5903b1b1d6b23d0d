// Joins what is kept beside the record to the screens: read by its kind, and told where it does not fit, cannot be read
// or is not kept. Loaded when the first draft is asked for. It makes no words.
import type { StationStore } from '../store/database.ts';
import { createDrafts } from '../store/drafts.ts';
import type { DraftTrouble, KeptServices } from '../ui/drafts/draftServices.ts';
import type { Services } from '../ui/services.ts';
import { newId, now } from './station.ts';

type Kept = KeptServices & { tell: (trouble: DraftTrouble) => Promise<void> };

/** @param services Asked when there is something to tell. */
export function createKept(store: StationStore, services: () => Services): Kept {
  const drafts = createDrafts(store, now, newId);
  /** Told once: every letter typed would fail anew. */
  let failing = false;

  async function tell(trouble: DraftTrouble): Promise<void> {
    (await import('../ui/drafts/draftTold.tsx')).tellDraft(services(), trouble);
  }

  return {
    tell,
    async draft(key, kind) {
      const read = await drafts.read(key, (value, version) => kind.read(value, version));
      if (read.type === 'fits') return read.value;
      if (read.type === 'aside') void tell({ type: 'aside', key, why: null });
      else if (read.type !== 'none') void tell({ type: 'unread', key, why: read.type });
      return null;
    },
    async saveDraft(key, value, kind) {
      const saved = await drafts.save(key, value, kind.version);
      const before = failing;
      failing = saved.type !== 'done';
      // What was said and is not on disk has its own bar, which asks for the same.
      if (saved.type === 'done' || before || services().notSaved.peek().count > 0) return;
      void tell({ type: 'not-kept', key, why: saved.type });
    },
    dropDraft: async (key) => void (await drafts.drop(key)),
    draftsAside: drafts.aside,
    dropAside: drafts.dropAside,
  };
}

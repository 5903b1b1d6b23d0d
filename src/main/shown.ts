// What is shown of the phone as a whole wherever a screen stands: what waits, what is not on disk, how the exchange
// does. Written by whoever joins the services, never by a screen.
import { signal } from '@preact/signals';
import { observe, outboxSummary } from '../store/queries.ts';
import type { Sending, Services, Unsent } from '../ui/services.ts';
import type { ServiceParts } from './serviceParts.ts';

const NOTHING_UNSENT: Unsent = { statements: 0, photos: 0, notes: 0, other: 0, bytes: 0, refused: 0 };

export function createShown({ store, commands }: Pick<ServiceParts, 'store' | 'commands'>) {
  const unsent = signal<Unsent>(NOTHING_UNSENT);
  const notSaved = signal<ReturnType<Services['notSaved']['peek']>>({ count: 0, why: null, copied: false });
  const storage = signal<ReturnType<Services['storage']['peek']>>({
    persisted: null,
    usedBytes: null,
    quotaBytes: null,
  });
  const state = signal<ReturnType<Services['sync']['state']['peek']>>({ type: 'unpaired' });
  const sending = signal<Sending | null>(null);
  const others = signal<ReturnType<Services['presence']['others']['peek']>>([]);
  let lastWhy: string | null = null;

  observe(store, outboxSummary).subscribe(
    (value) => {
      unsent.value = value;
    },
    (failure) => {
      lastWhy = failure.type;
    },
  );
  commands.copied.subscribe((copied) => {
    notSaved.value = { ...notSaved.peek(), copied };
  });
  commands.unsavedCount.subscribe((count) => {
    notSaved.value = { ...notSaved.peek(), count, why: count > 0 ? lastWhy : null };
  });
  return {
    unsent,
    notSaved,
    storage,
    state,
    sending,
    others,
    /** A statement is not on disk, and this is why. */
    failed(why: string): void {
      lastWhy = why;
      notSaved.value = { ...notSaved.peek(), count: commands.unsavedCount.current(), why };
    },
  };
}
export type Shown = ReturnType<typeof createShown>;

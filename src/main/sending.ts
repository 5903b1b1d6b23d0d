// What the screen of sending is told: the exchange's own account beside what the database knows of what waits, was held,
// or came with faults. Reads only.
import type { Signal } from '@preact/signals';
import type { StationStore } from '../store/database.ts';
import { observe } from '../store/observe.ts';
import type { StationDb } from '../store/schema.ts';
import { misnamedDocuments } from '../store/sending/misnamed.ts';
import { putOffRows, waitsSince } from '../store/sending/putOff.ts';
import type { createOutbox } from '../store/sending/syncPorts.ts';
import { untakenTexts } from '../store/sending/untaken.ts';
import { missedDocuments } from '../store/sending/wanted.ts';
import type { SyncState } from '../sync/ports.ts';
import type { Sync } from '../sync/sync.ts';
import type { Sending } from '../ui/services.ts';
import type { Network } from './network.ts';

type Stored = Pick<Sending, 'since' | 'held' | 'untaken' | 'missed' | 'misnamed'>;

interface SendingParts {
  store: StationStore;
  outbox: Pick<ReturnType<typeof createOutbox>, 'photosWait'>;
  sync: Sync;
  network: Network;
  state: Signal<SyncState>;
  sending: Signal<Sending | null>;
}

export function watchSending({ store, outbox, sync, network, state, sending }: SendingParts): void {
  let stored: Stored = { since: { entries: null, documents: null }, held: [], untaken: [], missed: [], misnamed: [] };
  const show = () => {
    const details = sync.details();
    sending.value = { ...stored, details, photosWait: network.photosWait(), network: network.kind() };
  };
  observe(store, readStored).subscribe(
    (next) => {
      stored = next;
      show();
    },
    // The exchange itself says when the database refuses.
    () => undefined,
  );
  sync.subscribe((next, details) => {
    // What was let through by hand is through, or waits for another reason now.
    if (details.lanes.up.type === 'idle') network.photosNow(false);
    state.value = next;
    show();
  });
  void outbox.photosWait().then(
    (wait) => {
      network.setPhotosWait(wait);
      show();
    },
    () => undefined,
  );
}

async function readStored(db: StationDb): Promise<Stored> {
  const held = await putOffRows(db);
  const untaken = await untakenTexts(db);
  const missed = await missedDocuments(db);
  return {
    since: { entries: await waitsSince(db, 'event'), documents: await waitsSince(db, 'document') },
    held: held.map(({ key, what, at, state, why = 'refused', sentence = null, dueAt = null }) => {
      return { key, what, at, refused: state !== 'queued', why, sentence, dueAt };
    }),
    untaken: untaken.map(({ hash, why, dueAt }) => ({ hash, why, dueAt })),
    missed: missed.map(({ sha, why = 'failed', dueAt = null }) => ({ document: sha, why, dueAt })),
    misnamed: await misnamedDocuments(db),
  };
}

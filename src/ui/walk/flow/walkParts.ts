// What a walk holds while it runs: the signals its screen shows, its memory and draft, and the line in which one thing
// is done after the other. It judges nothing.

import { type Signal, signal } from '@preact/signals';
import type { AuditId, PlaceId } from '../../../core/plan/identity.ts';
import type { Verdict } from '../../../core/report/walk/verdict.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { NEW_MEMORY, type WalkMemory } from '../../../core/walk/memory.ts';
import type { Slip } from '../../../core/walk/slip.ts';
import { WALK } from '../../drafts/walkDrafts.ts';
import type { Services } from '../../services.ts';
import type { Sheet } from '../sheets/walkSheet.ts';
import { walkDraft } from '../walkDraft.ts';
import type { WalkFlow } from '../walkFlowType.ts';

export type WalkParts = ReturnType<typeof createParts>;

export function createParts(services: Services, audit: AuditId, onPlace: (place: PlaceId) => void) {
  const memory = signal<WalkMemory>(NEW_MEMORY);
  const view: Signal<WalkView | null | 'loading'> = signal('loading');
  // One thing after the other: a label read while the last one is being kept belongs to the next jack.
  let chain: Promise<unknown> = Promise.resolve();
  let inHand = 0;
  return {
    services,
    audit,
    onPlace,
    memory,
    view,
    verdict: signal<Verdict | null>(null),
    said: signal<Verdict | null>(null),
    line: signal<string | null>(null),
    sheet: signal<Sheet | null>(null),
    mode: signal<WalkFlow['mode']['value']>('walk'),
    slip: signal<Slip | null>(null),
    lastRead: signal<string | null>(null),
    failed: signal<string | null>(null),
    isBusy: () => inHand > 0,
    shown: (): WalkView | null => (view.value === 'loading' ? null : view.value),
    remember(next: WalkMemory): void {
      memory.value = { ...next, at: services.now() };
      void services.saveDraft(walkDraft(audit), memory.value, WALK);
    },
    inLine<T>(job: () => Promise<T>): Promise<T> {
      inHand += 1;
      const result = chain.then(job).finally(() => {
        inHand -= 1;
      });
      chain = result.catch(() => undefined);
      return result;
    },
    /** A tap means the jack that was on the screen: a second one on its heels must not speak about the next jack. */
    tapped(job: () => Promise<unknown>): Promise<void> {
      const meant = memory.value.place;
      return this.inLine(async () => {
        if (memory.value.place === meant) await job();
      });
    },
  };
}

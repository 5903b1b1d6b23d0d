// The draft of a form, read once before the form stands: what is typed is never overtaken by what was kept, and nothing
// is kept before it is known what was said before. It saves nothing itself.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId } from '../../core/plan/identity.ts';
import { useServices } from '../context.ts';
import type { DraftKind } from '../drafts/draftKind.ts';
import type { DraftKey, KeyOf } from '../drafts/draftNames.ts';

export function useKeptDraft<T>(
  key: DraftKey,
  kind: DraftKind<T>,
): { type: 'loading' } | { type: 'ready'; draft: T | null } {
  const services = useServices();
  const kept = useSignal<{ type: 'loading' } | { type: 'ready'; draft: T | null }>({ type: 'loading' });
  useEffect(() => {
    void services.draft(key, kind).then((draft) => {
      kept.value = { type: 'ready', draft };
    });
  }, [key]);
  return kept.value;
}

export function rackDraftKey(audit: AuditId, label: string | null): KeyOf<'describe-rack'> {
  return `describe-rack:${audit}:${label ?? ''}`;
}

export function unitDraftKey(audit: AuditId, label: string | null): KeyOf<'describe-unit'> {
  return `describe-unit:${audit}:${label ?? ''}`;
}

// The draft of a form, read once before the form stands: what is typed is never overtaken by what was kept, and nothing
// is kept before it is known what was said before. It saves nothing itself.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useServices } from '../context.ts';

export function useKeptDraft<T>(key: string): { type: 'loading' } | { type: 'ready'; draft: T | null } {
  const services = useServices();
  const kept = useSignal<{ type: 'loading' } | { type: 'ready'; draft: T | null }>({ type: 'loading' });
  useEffect(() => {
    void services.draft<T>(key).then((draft) => {
      kept.value = { type: 'ready', draft };
    });
  }, [key]);
  return kept.value;
}

export function rackDraftKey(audit: string, label: string | null): string {
  return `describe-rack:${audit}:${label ?? ''}`;
}

export function unitDraftKey(audit: string, label: string | null): string {
  return `describe-unit:${audit}:${label ?? ''}`;
}

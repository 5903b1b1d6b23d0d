// A form, or one text, that survives the phone being put away in the middle of a word. It keeps and drops the draft; what
// the parts mean is the form's own.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useServices } from '../context.ts';
import { type DraftKind, TEXT } from './draftKind.ts';
import type { DraftKey } from './draftNames.ts';

interface DraftOf<T> {
  now: T;
  set: (change: Partial<T>) => void;
  drop: () => void;
}

/** The draft of that name, or what a new form begins with. Call `drop` once what it became is kept. */
export function useDraft<T extends object>(key: DraftKey, kind: DraftKind<T>, fresh: T): DraftOf<T> {
  const services = useServices();
  const draft = useSignal(fresh);
  useEffect(() => {
    void services.draft(key, kind).then((kept) => {
      // Typed before the answer came: that is newer.
      if (kept && draft.peek() === fresh) draft.value = kept;
    });
  }, [key]);
  return {
    now: draft.value,
    set: (change) => {
      draft.value = { ...draft.value, ...change };
      void services.saveDraft(key, draft.value, kind);
    },
    drop: () => void services.dropDraft(key),
  };
}

/**
 * A text that survives the phone being put away in the middle of a word. It is dropped only once what it became is
 * kept, so that a kill between the two loses neither.
 */
export function useDraftText(key: DraftKey): { text: string; set: (text: string) => void; drop: () => void } {
  const services = useServices();
  const text = useSignal('');
  useEffect(() => {
    void services.draft(key, TEXT).then((kept) => {
      if (kept && text.value === '') text.value = kept;
    });
  }, [key]);
  return {
    text: text.value,
    set: (next) => {
      text.value = next;
      void services.saveDraft(key, next, TEXT);
    },
    drop: () => void services.dropDraft(key),
  };
}

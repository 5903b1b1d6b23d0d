// A form of several parts that survives the phone being put away in the middle of a word. It keeps and drops the draft;
// what the parts mean is the form's own.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useServices } from './context.ts';

export interface DraftOf<T> {
  now: T;
  set: (change: Partial<T>) => void;
  drop: () => void;
}

/** The draft of that name, or what a new form begins with. Call `drop` once what it became is kept. */
export function useDraft<T extends object>(key: string, fresh: T): DraftOf<T> {
  const services = useServices();
  const draft = useSignal(fresh);
  useEffect(() => {
    void services.draft<T>(key).then((kept) => {
      // Typed before the answer came: that is newer.
      if (kept && draft.peek() === fresh) draft.value = { ...fresh, ...kept };
    });
  }, [key]);
  return {
    now: draft.value,
    set: (change) => {
      draft.value = { ...draft.value, ...change };
      services.saveDraft(key, draft.value);
    },
    drop: () => void services.dropDraft(key),
  };
}

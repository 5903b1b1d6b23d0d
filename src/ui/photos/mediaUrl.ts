// Pictures and sound by their document, as something an element can show. One of another phone is fetched when it is
// opened, not when it is listed; until it arrives the answer is null.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useServices } from '../context.ts';

type MediaUrl = { type: 'opening' } | { type: 'here'; url: string } | { type: 'absent' };

/** @param document Null opens nothing: the caller has not been asked for it yet. */
export function useMediaUrl(document: string | null, size: 'thumb' | 'full'): MediaUrl {
  const services = useServices();
  const state = useSignal<MediaUrl>({ type: 'opening' });
  // A picture that is shown stays; only a missing one is looked for again when something arrived.
  const again = state.value.type === 'absent' ? services.changed.value : -1;
  useEffect(() => {
    if (document === null) return;
    let over = false;
    void services.photoUrl(document, size).then((url) => {
      if (over) {
        if (url) URL.revokeObjectURL(url);
        return;
      }
      if (url === null && size === 'full' && state.peek().type === 'opening') services.sync.now();
      state.value = url === null ? { type: 'absent' } : { type: 'here', url };
    });
    return () => {
      over = true;
    };
  }, [document, size, again]);
  useEffect(
    () => () => {
      const last = state.peek();
      if (last.type === 'here') URL.revokeObjectURL(last.url);
      state.value = { type: 'opening' };
    },
    [document, size],
  );
  return state.value;
}

export const ABSENT = 'Not on this phone yet';
export const ABSENT_WHY =
  'Another phone took it; it comes with the next send and receive. Keep the app open where there is a network.';

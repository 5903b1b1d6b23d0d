// Joins the keys of a small keyboard or remote to what the cells at the thumb do. Only while the walk itself is on the
// screen; a sheet, a pause or a text field keeps its keys. What a key means is decided in remoteKeys.ts.
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { createRemote, LONE_MS } from './remoteKeys.ts';
import type { FeelSettings, RemoteAction } from './settings.ts';

/** Common practice, no source: nobody presses twice on purpose within this time; gloves are slower. */
export const SETTLE_MS = 300;
const GLOVES_SETTLE_MS = 600;

export function settleMs(feel: Pick<FeelSettings, 'gloves'>): number {
  return feel.gloves ? GLOVES_SETTLE_MS : SETTLE_MS;
}

const TEXT =
  'textarea, select, [contenteditable], input:not([type=button], [type=checkbox], [type=radio], [type=file])';
const CONTROL = 'button, a[href], input, summary, [role=button]';

export function useRemote(feel: FeelSettings, listens: () => boolean, act: (action: RemoteAction) => void): void {
  const remote = useMemo(() => createRemote(feel.keys, settleMs(feel)), [feel.keys, feel.gloves]);
  const latest = useRef(act);
  latest.current = act;
  useEffect(() => {
    if (!feel.remote) return;
    const ends = new AbortController();
    const on = { signal: ends.signal, capture: true };
    // A tap leaves the focus on its cell; Enter would then press that cell again. Only the Tab key means the focus.
    let byTab = false;
    const pointed = () => {
      byTab = false;
    };
    const pressed = (event: KeyboardEvent) => {
      if (event.key === 'Tab') byTab = true;
      const { target } = event;
      const element = target instanceof Element ? target : null;
      const answer = remote.key({
        key: event.key,
        at: event.timeStamp,
        repeat: event.repeat,
        withModifier: event.ctrlKey || event.altKey || event.metaKey,
        taken:
          !listens() ||
          event.isComposing ||
          element?.closest(TEXT) != null ||
          (byTab && element?.closest(CONTROL) != null),
      });
      if (answer.type === 'pass') return;
      event.preventDefault();
      setTimeout(() => {
        const action = remote.due(event.timeStamp + LONE_MS);
        if (action !== null && !ends.signal.aborted && listens()) latest.current(action);
      }, LONE_MS);
    };
    document.addEventListener('keydown', pressed, on);
    document.addEventListener('pointerdown', pointed, on);
    return () => ends.abort();
  }, [remote, feel.remote]);
}

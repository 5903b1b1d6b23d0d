// Joins a walk to what ear and hand are told: each verdict once, silence on pause, when hidden and beside a live
// microphone, the screen kept on, the page held upright. It says nothing about the record.
import { type ReadonlySignal, type Signal, useComputed, useSignalEffect } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { useServices } from '../context.ts';
import type { WalkFlow } from '../walk/walkFlowType.ts';
import { createFeedback } from './feedback.ts';
import { holdUpright, phoneSpeaker, phoneTones, phoneWake, vibrate } from './phonePorts.ts';
import { type FeelSettings, feelOf } from './settings.ts';
import { createWakeLock, type WakeState } from './wakeLock.ts';

export interface Feel {
  settings: ReadonlySignal<FeelSettings>;
  set(change: Partial<FeelSettings>): void;
}

/** The settings of this phone's feel, read and written; any screen may use it. */
export function useFeelSettings(): Pick<Feel, 'settings' | 'set'> {
  const services = useServices();
  const settings = useComputed(() => feelOf(services.settings.value.feel));
  return {
    settings,
    set(change) {
      const before = services.settings.peek();
      services.settings.value = { ...before, feel: { ...feelOf(before.feel), ...change } };
    },
  };
}

export function useFeel(flow: WalkFlow, wake: Signal<WakeState>): Feel {
  const { settings, set } = useFeelSettings();
  const parts = useMemo(
    () => ({
      feedback: createFeedback({ tones: phoneTones(), speaker: phoneSpeaker(), vibrate }, () => ({
        feel: settings.peek(),
        paused: flow.memory.peek().paused,
      })),
      lock: createWakeLock({
        ...phoneWake,
        tell: (state) => {
          wake.value = state;
        },
      }),
    }),
    [flow],
  );

  useSignalEffect(() => {
    const said = flow.said.value;
    if (said) parts.feedback.verdict(said);
  });
  const state = useComputed(() => ({ paused: flow.memory.value.paused, feel: settings.value }));
  useSignalEffect(() => {
    const { paused } = state.value;
    parts.feedback.changed();
    parts.lock.want(!paused);
  });
  const upright = useComputed(() => settings.value.upright);
  useEffect(() => {
    if (!upright.value) return;
    void holdUpright(true);
    return () => void holdUpright(false);
  }, [upright.value]);

  useEffect(() => {
    const ends = new AbortController();
    const on = { signal: ends.signal, capture: true };
    const tapped = () => parts.feedback.tapped();
    const seen = () => {
      if (document.visibilityState !== 'visible') parts.feedback.end();
      parts.lock.seen();
    };
    for (const name of ['pointerup', 'keydown']) document.addEventListener(name, tapped, on);
    document.addEventListener('visibilitychange', seen, on);
    // Installed apps may come back without a visibilitychange.
    for (const name of ['pageshow', 'focus']) globalThis.addEventListener(name, seen, on);
    return () => {
      ends.abort();
      parts.feedback.end();
      parts.lock.want(false);
    };
  }, [parts]);

  return { settings, set };
}

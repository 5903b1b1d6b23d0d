// Gives screens their services and one way to ask the record worker again whenever the record changed.
import { signal, useComputed, useSignal, useSignalEffect } from '@preact/signals';
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Question, Questions } from '../wire/page.ts';
import type { Services } from './services.ts';

export const ServicesContext = createContext<Services | null>(null);

export function useServices(): Services {
  const services = useContext(ServicesContext);
  if (!services) throw new Error('No services: render inside ServicesContext.');
  return services;
}

/** What an unanswered question says of itself. */
export function errorToWhy(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

export type Asked<T> = { type: 'loading' } | { type: 'ready'; value: T } | { type: 'failed'; why: string };

/**
 * Asks the worker now and after each change of the record. The last answer stays on screen while the next is on its
 * way; a late answer to an older question is dropped.
 */
export function useAsked<Q extends Question>(question: Q, given: Questions[Q]['ask']): Asked<Questions[Q]['answer']> {
  const services = useServices();
  const key = JSON.stringify(given);
  const asked = useSignal(key);
  asked.value = key;
  const state = useSignal<Asked<Questions[Q]['answer']>>({ type: 'loading' });
  const latest = useComputed(() => `${asked.value} ${services.changed.value}`);
  useSignalEffect(() => {
    const mine = latest.value;
    const ask = JSON.parse(asked.value) as Questions[Q]['ask'];
    services.ask(question, ask).then(
      (value) => {
        if (latest.peek() === mine) state.value = { type: 'ready', value };
      },
      (error: unknown) => {
        if (latest.peek() === mine) state.value = { type: 'failed', why: errorToWhy(error) };
      },
    );
  });
  return state.value;
}

/** Screens that must not be interrupted: an update waits while this is above 0. */
export const busy = signal(0);

// Hears what nobody expected, from the moment the first screen stands. What is shown of it stands in lastResort.tsx.
import type { Services } from './services.ts';

/** What nobody expected is told and offers the record as a file, instead of ending in a console that nobody reads. */
export function hearFailures(services: Services): void {
  const tell = (error: unknown) => {
    // What was called off is no failure: a video that is taken away before it plays ends like this, whoever awaits it.
    if (error instanceof DOMException && error.name === 'AbortError') return;
    void import('./lastResort.tsx').then(({ tellFailure }) => tellFailure(services, error)).catch(console.error);
  };
  addEventListener('error', ({ error }) => error && tell(error));
  addEventListener('unhandledrejection', (event) => event.defaultPrevented || tell(event.reason));
}

// Lines under the drawing that must not wait under the verdict, where nobody looks for them on a low screen.
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/** Brought into sight once, when it appears. */
export function Seen({ label, children }: { label: string; children: ComponentChildren }) {
  const box = useRef<HTMLElement>(null);
  useEffect(() => box.current?.scrollIntoView({ block: 'nearest' }), []);
  return (
    <section class="walk-ask" aria-label={label} ref={box}>
      {children}
    </section>
  );
}

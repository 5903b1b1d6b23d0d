// A part of a long page behind one line. What is in it is drawn when it is first opened, so that a page of many lists
// stands at once; and a long list of which the first lines stand and the rest is one touch away. Neither keeps anything.
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';

export function Fold(props: { title: ComponentChildren; open?: boolean; children: () => ComponentChildren }) {
  const { title, open = false, children } = props;
  const drawn = useSignal(open);
  return (
    <details
      class="desk-fold"
      open={open}
      onToggle={(event) => {
        if (event.currentTarget.open) drawn.value = true;
      }}
    >
      <summary>{title}</summary>
      {drawn.value && children()}
    </details>
  );
}

/** The first lines of a list; the others behind a line that counts them. */
export function FirstOf<T>(props: {
  of: readonly T[];
  first: number;
  /** "and 3 more services" */
  rest: (n: number) => string;
  class: string;
  children: (one: T) => ComponentChildren;
}) {
  const { of, first } = props;
  // One line more is no longer than the line that would hide it.
  const shown = of.length === first + 1 ? of.length : first;
  const lines = (some: readonly T[]) => (
    <ul class={props.class}>
      {some.map((one, i) => (
        <li key={i}>{props.children(one)}</li>
      ))}
    </ul>
  );
  return (
    <>
      {lines(of.slice(0, shown))}
      {of.length > shown && <Fold title={props.rest(of.length - shown)}>{() => lines(of.slice(shown))}</Fold>}
    </>
  );
}

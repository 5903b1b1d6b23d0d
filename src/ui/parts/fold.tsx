// A part of a long page behind one line. What is in it is drawn when it is first opened, so that a page of many lists
// stands at once. It keeps nothing itself.
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

// A sheet that slides over the lower part of the screen and holds the focus until it is answered. Built on the
// platform's modal dialog, which makes the rest of the page inert; Escape means "close", never "yes".
import type { ComponentChildren } from 'preact';
import { useId, useLayoutEffect, useRef } from 'preact/hooks';
import { type CellProps, TitleBlock } from './frame.tsx';

export function Dialog(props: {
  title: ComponentChildren;
  children?: ComponentChildren | undefined;
  rows: readonly (readonly CellProps[])[];
  onClose: () => void;
}) {
  const ref = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  // Open before the page is next drawn: a letter typed right behind the tap belongs to its field.
  useLayoutEffect(() => {
    const dialog = ref.current;
    if (!dialog) return;
    const before = document.activeElement;
    dialog.showModal();
    return () => {
      dialog.close();
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog
      ref={ref}
      class="dialog"
      aria-labelledby={titleId}
      onCancel={(e) => {
        // The caller owns whether it is open; the platform must not close it behind the caller's back.
        e.preventDefault();
        props.onClose();
      }}
      onKeyDown={(e) => {
        if (e.key === 'Tab' && ref.current) keepFocusInside(e, ref.current);
      }}
    >
      <div class="dialog-body">
        <h2 class="dialog-title" id={titleId}>
          {props.title}
        </h2>
        {props.children}
      </div>
      <TitleBlock rows={props.rows} label="Answer" />
    </dialog>
  );
}

/** The platform lets Tab leave a modal dialog for the browser's own bars; here it goes round inside. */
function keepFocusInside(e: KeyboardEvent, dialog: HTMLElement): void {
  const all = dialog.querySelectorAll<HTMLElement>(
    'button:not(:disabled), input:not(:disabled), textarea:not(:disabled), select:not(:disabled), a[href]',
  );
  const first = all[0];
  const last = all[all.length - 1];
  if (!first || !last) return;
  if (e.shiftKey && document.activeElement === first) {
    e.preventDefault();
    last.focus();
  } else if (!e.shiftKey && document.activeElement === last) {
    e.preventDefault();
    first.focus();
  }
}

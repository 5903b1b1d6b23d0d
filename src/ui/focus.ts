// Keeps the keyboard's place when the control that had it goes away: a question answered, a form laid over the walk, the
// next screen. It never takes the focus from a control that still stands, and does nothing before the first one had it.
/** More than a form has that is laid over the walk, so that the way back is still known when it goes. */
const REMEMBERED = 200;
const CONTROL = 'button, input, select, textarea, a[href]';

interface Passed {
  element: HTMLElement;
  /** Another screen's control of the same name is another control. */
  path: string;
}

/** Starts watching the page. The control passed last takes the focus, else the heading of what has come. */
export function keepFocus(page: Document): void {
  let passed: Passed[] = [];
  let due = false;
  page.addEventListener('focusin', ({ target }) => {
    if (!(target instanceof HTMLElement)) return;
    passed = passed.filter(({ element }) => element.isConnected && element !== target).slice(1 - REMEMBERED);
    passed.push({ element: target, path: location.pathname });
  });
  const look = () => {
    due = false;
    const last = passed.at(-1);
    const { activeElement } = page;
    // Pressed beside every control: that was wished. Typing elsewhere: nothing was lost.
    if (!last || usable(last.element) || (activeElement !== page.body && usable(activeElement))) return;
    const dialog = [...page.querySelectorAll<HTMLElement>('dialog[open]')].at(-1);
    const inside = (element: Element) => !dialog || dialog.contains(element);
    const before = passed.findLast(
      ({ element, path }) =>
        path === location.pathname && element.matches(CONTROL) && inside(element) && usable(element),
    );
    if (before) before.element.focus({ preventScroll: true });
    else {
      const heading = [...page.querySelectorAll<HTMLElement>('h1, dialog[open] h2')].findLast(
        (element) => inside(element) && usable(element),
      );
      if (!heading) return;
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
    }
  };
  // The browser itself takes the focus off only when it next draws.
  new MutationObserver(() => {
    if (due) return;
    due = true;
    requestAnimationFrame(() => setTimeout(look));
  }).observe(page.body, { subtree: true, childList: true, attributeFilter: ['disabled', 'inert', 'open'] });
}

function usable(element: Element | null): boolean {
  return (
    element?.isConnected === true &&
    !element.matches(':disabled') &&
    element.closest('[inert]') === null &&
    element.getClientRects().length > 0
  );
}

// Started by being loaded: each letter of the start's own script counts.
keepFocus(document);

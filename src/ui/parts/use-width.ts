// The width of a drawing in sixteenths of a rem, so that drawings grow with the reader's text and not only with
// the screen. Before the first measure a phone's width is assumed.
import type { RefObject } from 'preact';
import { useEffect, useState } from 'preact/hooks';

const PHONE = 358;

export function useWidth(ref: RefObject<HTMLElement | null>, first = PHONE): number {
  const [width, setWidth] = useState(first);
  useEffect(() => {
    const el = ref.current;
    if (!el) return;
    const measure = () => {
      const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
      const now = Math.floor((el.clientWidth / rem) * 16);
      if (now > 0) setWidth(now);
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(el);
    return () => observer.disconnect();
  }, [ref]);
  return width;
}

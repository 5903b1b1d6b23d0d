// The sentences about photos: each one whole. No markup, no state.
import type { PhotoMark } from '../../core/record/events.ts';
import type { PhotoView } from '../../core/report/photosView.ts';
import { count, list } from '../words.ts';

/** What a touch on the photo does. */
export type Tool = 'look' | 'arrow' | 'circle' | 'pin';

/** "2 arrows and 1 circle"; blank where nothing is drawn. */
export function marksToWords(marks: readonly PhotoMark[]): string {
  const [arrows, circles] = (['arrow', 'circle'] as const).map(
    (shape) => marks.filter((mark) => mark.shape === shape).length,
  );
  return list([...(arrows ? [count(arrows, 'arrow')] : []), ...(circles ? [count(circles, 'circle')] : [])]);
}

/** What the photo is called where it is looked at closely, and what keys do there. @param next The jack to be pinned. */
export function stageToWords({ words, marks }: PhotoView, tool: Tool, next: string | null): string {
  const drawn = marksToWords(marks);
  const photo = drawn === '' ? `Photo: ${words}.` : `Photo: ${words}. On it: ${drawn}.`;
  switch (tool) {
    case 'look':
      return `${photo} Arrow keys move, plus and minus zoom.`;
    case 'pin':
      return next === null
        ? `${photo} Every jack of this unit is pinned.`
        : `${photo} Arrow keys move the ring, Enter pins ${next}.`;
    case 'arrow':
    case 'circle':
      return `${photo} Arrow keys move the ring, Enter sets one end, then the other.`;
  }
}

export function drawnToWords(shape: PhotoMark['shape']): string {
  return shape === 'arrow' ? 'Arrow saved.' : 'Circle saved.';
}

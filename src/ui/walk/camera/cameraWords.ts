// What is said at the camera's picture, and where there is none.
import type { ScanFailure } from '../../../scan/scanner.ts';
import { count } from '../../words.ts';

/** Behind the label that was taken. */
export const takenBeside = (others: number): string => `taken, ${count(others, 'other in view', 'others in view')}`;

export function failureToWords(failure: ScanFailure): { what: string; todo: string } {
  switch (failure.type) {
    case 'no-permission':
      return {
        what: 'The camera is not allowed.',
        todo: 'Allow it for this page in the browser’s settings, then start it again. Type and tap work without it.',
      };
    case 'no-camera':
      return { what: 'No camera was found.', todo: 'Type the label, tap what you see, or use a hand scanner.' };
    case 'camera-in-use':
      return { what: 'Another app is using the camera.', todo: 'Close it, then start the camera again.' };
    case 'insecure-context':
      return {
        what: 'The camera needs a trusted address (https).',
        todo: 'See Help for how to open the app that way. Type and tap work without it.',
      };
    case 'stalled':
      return { what: 'The picture stopped.', todo: 'Start the camera again.' };
    case 'decoder-failed':
      return { what: 'Labels cannot be decoded on this phone.', todo: 'Type the label or tap what you see.' };
  }
}

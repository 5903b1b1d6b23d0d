// What became of something kept on this phone, in words with the next step. It decides nothing.
import type { StoreFailure } from '../../store/failures.ts';
import { keyToWords } from './draftNames.ts';
import type { DraftTrouble } from './draftServices.ts';

/** @param troubles At least one, all of one type. */
export function troublesToWords(troubles: readonly DraftTrouble[]): { what: string; todo: string } {
  const names = [...new Set(troubles.map(({ key }) => keyToWords(key)))].join('. ');
  const [first] = troubles;
  if (!first) throw new Error('No trouble to tell.');
  switch (first.type) {
    case 'aside':
      return {
        what: 'Put aside, not deleted.',
        todo: `${names}. This version of the app cannot use what was saved, so it starts again here. The record is not touched. See it here, or later under Settings.`,
      };
    case 'unread':
      return {
        what: 'Not read from this phone.',
        todo: `${names}. ${failureToWords(first.why)} It may still be there. Reload before you start it again; what you type meanwhile is saved beside it.`,
      };
    case 'not-kept':
      return {
        what: 'Not saved while you type.',
        todo: `${names}. ${failureToWords(first.why)} Finish it before you leave this screen or lock the phone.`,
      };
  }
}

export function failureToWords(why: StoreFailure['type']): string {
  switch (why) {
    case 'full':
      return 'The phone is full: free some space.';
    case 'store-lost':
      return 'The browser’s storage does not answer.';
    case 'newer-version':
      return 'The app was updated in another tab.';
    case 'no-database':
      return 'The browser gives no storage.';
  }
}

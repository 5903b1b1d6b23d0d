// Reads schedule files away from the page, so that a large sheet never stops a finger. One question after the other, each
// with one answer, in the order in which they came. The page ends it to cancel.
import type { SheetRequest } from '../wire/sheet.ts';
import { createSheetReader, toTransfer } from './sheetReader.ts';

const reader = createSheetReader((progress) => self.postMessage(progress));
let last: Promise<void> = Promise.resolve();

self.onmessage = ({ data }: MessageEvent<SheetRequest>) => {
  last = last.then(async () => {
    const answer = await reader.answer(data);
    self.postMessage(answer, { transfer: toTransfer(answer) });
  });
};

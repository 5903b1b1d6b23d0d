// Reads schedule files away from the page, so that a large sheet never stops a finger. One question after the other, each
// with one answer, in the order in which they came. The page ends it to cancel.
import type { SheetAnswer, SheetRequest } from '../wire/sheet.ts';
import { isOf } from '../wire/worker.ts';
import { serve } from './calls/serve.ts';
import { createSheetReader, toTransfer } from './sheetReader.ts';

type Progress = Extract<SheetAnswer, { type: 'progress' }>;
let tell: (progress: Progress) => void = () => undefined;
const reader = createSheetReader((progress) => tell(progress));

serve<SheetRequest, SheetAnswer, Progress>(self, {
  read: isOf<SheetRequest>({
    open: true,
    again: true,
    agree: true,
    row: true,
    rows: true,
    next: true,
    settle: true,
    document: true,
  }),
  answer: (request, told) => {
    tell = told;
    return reader.answer(request);
  },
  transfer: toTransfer,
});

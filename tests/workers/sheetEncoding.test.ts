// A text file whose encoding was guessed wrong: the choice of a person has its words read anew, and is kept with what was
// settled, by which the sheet is given back. Bytes: WHATWG Encoding Standard, index windows-1250. Invented data.
import { expect, it } from 'vitest';
import { NO_ANSWERS } from '../../src/core/schedule/sheetAnswers.ts';
import { encodeText } from '../../src/files/encodings.ts';
import { createSheetReader } from '../../src/workers/sheetReader.ts';

it('is read in the encoding that a person chose, and back in the guessed one', async () => {
  // One letter alone tells nothing: it is a language's in two encodings.
  const bytes = encodeText('Cable,From,From Jack,To,To Jack\n1001,SW1,P1,Dvů1,IN\n', 'Windows-1250')!;
  const reader = createSheetReader(() => undefined);
  const cellsOf = async () => {
    const answer = await reader.answer({ type: 'row', sheet: 'runs', row: 2 });
    return answer.type === 'row' ? answer.cells.map(({ text }) => text) : [];
  };
  const files = [{ name: 'runs.csv', bytes: bytes.buffer }];
  const guessed = await reader.answer({ type: 'open', files });
  expect(guessed).toMatchObject({ type: 'read', encoding: 'Windows-1252' });
  expect(await cellsOf()).toContain('Dvù1');
  const chosen = await reader.answer({ type: 'again', answers: { ...NO_ANSWERS, encoding: 'Windows-1250' } });
  expect(chosen).toMatchObject({ type: 'read', encoding: 'Windows-1250', answers: { encoding: 'Windows-1250' } });
  expect(await cellsOf()).toContain('Dvů1');
  expect(await reader.answer({ type: 'document' })).toMatchObject({
    settled: { answers: { encoding: 'Windows-1250' } },
  });
  expect(await reader.answer({ type: 'again', answers: NO_ANSWERS })).toMatchObject({ encoding: 'Windows-1252' });
});

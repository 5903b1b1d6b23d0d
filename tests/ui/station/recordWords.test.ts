// What does not fit in the record, in words: whose, how much, why, what to do.
import { describe, expect, it } from 'vitest';
import type { LogTrouble } from '../../../src/store/record/asideView.ts';
import { aheadWords, logToTrouble, standToTrouble } from '../../../src/ui/station/recordWords.ts';

const log = (more: Partial<LogTrouble>): LogTrouble => ({
  ...{ log: 'l', own: false, author: 'Ilse', aside: 0, runs: [], named: {} },
  ...more,
});
const at = (time: number) => `at ${time}`;

describe('entries that do not fit', () => {
  it('names the hole, the phone, what waits behind it, and what to do', () => {
    const told = logToTrouble(log({ aside: 3, runs: [{ type: 'gap', from: 11, to: 13, entries: 3 }] }));
    expect(told.title).toBe('Ilse’s phone');
    expect(told.lines).toEqual([
      'Entries 12 to 14 of Ilse’s phone have not arrived. 3 later entries are kept aside until then.',
    ]);
    expect(told.todo).toContain('Open Send and receive on Ilse’s phone and send.');
  });

  it('counts one as one, and what is not told singly', () => {
    const told = logToTrouble(log({ aside: 9, runs: [{ type: 'gap', from: 4, to: 4, entries: 1 }] }));
    expect(told.lines).toEqual([
      'Entry 5 of Ilse’s phone has not arrived. 1 later entry is kept aside until then.',
      '8 further entries kept aside.',
    ]);
  });

  it('tells a number that cannot be true, and an entry that names another one before it', () => {
    const runs: LogTrouble['runs'] = [
      { type: 'fork', at: 4, entries: 2 },
      { type: 'gap', from: 8, to: Number.MAX_SAFE_INTEGER - 1, entries: 1 },
    ];
    expect(logToTrouble(log({ author: '', aside: 3, runs })).lines).toEqual([
      'Entry 5 of a phone without a name does not follow the entries here. 2 entries are kept aside.',
      '1 entry of a phone without a name has a number much too high. Kept aside.',
    ]);
  });

  it('tells the phone whose log is forged, and that its own work goes on', () => {
    const told = logToTrouble(log({ own: true, aside: 1, named: { 'own-log': 2, 'same-number': 1 } }));
    expect(told.title).toBe('This phone');
    expect(told.lines).toEqual([
      '1 entry from elsewhere claims to be this phone’s and does not follow its own entries. Kept aside.',
      '1 entry has the same number as another entry. Both count.',
      '2 entries from elsewhere follow this phone’s own. They count.',
    ]);
    expect(told.todo).toContain('Go on recording here as before.');
  });
});

describe('phones that disagree', () => {
  const heads = [
    { id: 'b', by: 'Mara', at: 2, words: 'Rev B' },
    { id: 'a', by: 'Ilse', at: 1, words: 'Rev A' },
  ];
  it('are told with who and when, and what settles it', () => {
    expect(standToTrouble('plan', { heads, disputed: true }, at)).toEqual({
      title: 'Two plans',
      lines: [
        'Mara put the plan Rev B in force, at 2.',
        'Ilse put the plan Rev A in force, at 1.',
        'Neither knew about the other.',
      ],
      todo: 'The first one is in use. Using another plan settles it.',
    });
    expect(standToTrouble('plan', { heads, disputed: false }, at)).toBeNull();
  });
  it('have clocks that are told by name', () => {
    expect(aheadWords({ author: 'Ilse', entries: 1, latest: 7 }, at)).toBe(
      'Ilse: 1 entry is dated in the future, the latest at 7.',
    );
  });
});

// What the contacts of an audio jack are said to carry: by the station's table, at eight-pin jacks of audio alone. The
// usual table is common practice from memory, as it stands in the code; the plan is invented.
import { describe, expect, it } from 'vitest';
import { createStation } from '../../src/core/rules/station.ts';
import { USUAL_RULES } from '../../src/core/schedule/desk/siteRules.ts';
import { deskAnswers } from '../../src/workers/answersDesk.ts';
import { planOf, started } from '../core/record/build.ts';

const jack = (id: string, connector: string, signal: 'line-audio' | 'aes3' | 'network') => ({
  ...{ id, unit: id.split('/')[0]!, label: id.split('/')[1]!, mult: false, spare: false, implied: false },
  connector,
  signal,
});
const plan = {
  ...planOf([['1', 'AIO I1', 'DIO I1']]),
  jacks: [
    jack('AIO/I1', 'RJ45', 'line-audio'),
    jack('DIO/I1', '8P8C', 'aes3'),
    jack('AIO/I2', 'XLR', 'line-audio'),
    jack('SW/P1', 'RJ45', 'network'),
  ],
};

describe('contacts of audio on RJ45', () => {
  const station = createStation();
  station.addPlan('p', plan);
  station.addTexts([JSON.stringify({ ...started({ plan: 'p' }), id: 'w', audit: 'w' })]);
  const ask = (place: string) => deskAnswers(station).audioPins({ audit: 'w', place });

  it('are the usual ones while nobody set a table, and none where no audio is', () => {
    expect(ask('AIO/I1')).toEqual({ words: 'left 1 hot, 2 cold; right 3 hot, 6 cold', own: false });
    expect(ask('DIO/I1')).toEqual({ words: 'AES3 1 hot, 2 cold', own: false });
    expect([ask('AIO/I2'), ask('SW/P1')]).toEqual([null, null]);
    // A jack that no list has is taken for one of its row.
    expect(ask('AIO/I9')?.words).toContain('left 1 hot');
  });

  it('are the station’s own once it set them', () => {
    const rules = { ...USUAL_RULES, audioPins: { ...USUAL_RULES.audioPins, aes3: { hot: 5, cold: 4 } } };
    station.addTexts([
      JSON.stringify({
        ...{ v: 1, id: 'r', station: 's', log: 'l', seq: 0, prev: null, author: 'I. Halloran', at: 5, zone: 0 },
        kind: 'rules-set',
        payload: { rules },
      }),
    ]);
    expect(ask('DIO/I1')).toEqual({ words: 'AES3 5 hot, 4 cold', own: true });
  });
});

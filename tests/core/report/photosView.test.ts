// Photos with marks and pins, and labels read off them later: what each screen is told. Plan and events are invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rackFaceToPlace } from '../../../src/core/plan/identity.ts';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { lastOnPhoto, photosView, photoView, pinChoice, readingList } from '../../../src/core/report/photosView.ts';
import { differencesView } from '../../../src/core/report/reconciliation.ts';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { photoTime } from '../../../src/core/report/words/photoTime.ts';
import { evidenceToWords } from '../../../src/core/report/words/reportSentences.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf([
  ['1001', 'MIO31 NET', 'SW1 P01'],
  ['1002', 'MIO32 NET', 'SW1 P02'],
  ['1003', 'MIO33 NET', 'SW1 P03'],
  ['1004', 'MIO34 NET', 'SW1 P04'],
]);

const photo = (document: string, place: string | undefined, more: Partial<AuditEvent> = {}) =>
  event(
    'photo',
    { ...(place ? { place } : {}), document, mime: 'image/jpeg', bytes: 9, width: 1600, height: 1200 },
    more,
  );
const pin = (document: string, words: string, x = 0.5, y = 0.5) =>
  event('photo-pinned', { document, place: at(words), said: words, at: { x, y } });
const mark = (document: string, x = 0.1) =>
  event('photo-marked', { document, marks: [{ shape: 'circle', from: { x, y: 0.2 }, to: { x: 0.3, y: 0.4 } }] });
const read = (document: string, words: string, label: string) => saw(words, label, { photo: document, by: 'typed' });
const takenBack = (target: AuditEvent) => event('withdrawn', { target: { event: target.id }, why: 'undo' });

describe('photos of a place', () => {
  it('are those taken there and those on which it is pinned, each with its marks', () => {
    const fold = foldAll(plan, [
      started(),
      photo('d1', at('SW1 P03')),
      photo('d2', at('SW1 P03')),
      photo('rear', 'SW1'),
      pin('rear', 'SW1 P03', 0.25, 0.75),
      mark('d2'),
      photo('d4', at('SW1 P04')),
    ]);
    const { photos, words } = photosView(fold, at('SW1 P03'));
    expect(words).toBe('SW1 P03');
    expect(photos.map((one) => [one.document, one.words, one.marks.length])).toEqual([
      ['d1', 'SW1 P03', 0],
      ['d2', 'SW1 P03', 1],
      ['rear', 'Whole SW1', 0],
    ]);
    expect(photos[2]).toMatchObject({
      whole: true,
      pins: [{ jack: 'P03', words: 'SW1 P03', at: { x: 0.25, y: 0.75 }, open: true }],
    });
    expect(photosView(fold, null).photos).toHaveLength(4);
  });

  it('leave the lists when they are taken back; so do marks, pins and voice notes, one by one', () => {
    const [one, two] = [photo('d1', at('SW1 P03')), photo('d2', at('SW1 P03'))];
    const [first, second] = [mark('d2', 0.1), mark('d2', 0.2)];
    const [pinned, spoken] = [
      pin('d2', 'SW1 P03'),
      event('voice-note', { place: at('SW1 P03'), document: 'v', mime: 'audio/webm', bytes: 5, lasts: 1500 }),
    ];
    const all = [started(), one, two, first, second, pinned, spoken];
    const fold = foldAll(plan, all);
    expect(lastOnPhoto(fold, 'd2', 'photo-marked')).toBe(second.id);
    expect(photosView(fold, at('SW1 P03')).voices).toMatchObject([{ document: 'v', lasts: 1500, words: 'SW1 P03' }]);
    fold.add([takenBack(one), takenBack(second), takenBack(pinned), takenBack(spoken)]);
    expect(photosView(fold, at('SW1 P03'))).toMatchObject({
      photos: [{ document: 'd2', pins: [], marks: [{ from: { x: 0.1 } }] }],
      voices: [],
    });
    expect(lastOnPhoto(fold, 'd2', 'photo-marked')).toBe(first.id);
    expect(lastOnPhoto(fold, 'd2', 'photo-pinned')).toBe(null);
    expect(photoView(fold, 'd1')).toBe(null);
  });
});

describe('pinning', () => {
  it('goes on at the next open jack in walking order, and begins again at the first', () => {
    const fold = foldAll(plan, [started(), photo('rear', 'SW1'), saw('SW1 P01', '1001')]);
    expect(pinChoice(fold, 'rear', null)).toMatchObject({ unit: 'SW1', next: at('SW1 P02') });
    fold.add([pin('rear', 'SW1 P02')]);
    expect(pinChoice(fold, 'rear', null)?.next).toBe(at('SW1 P03'));
    fold.add([pin('rear', 'SW1 P04')]);
    expect(pinChoice(fold, 'rear', null)?.next).toBe(at('SW1 P03'));
    fold.add([pin('rear', 'SW1 P03')]);
    // Said already, but its place on the picture may be wanted all the same.
    expect(pinChoice(fold, 'rear', null)?.next).toBe(at('SW1 P01'));
    fold.add([pin('rear', 'SW1 P01')]);
    expect(pinChoice(fold, 'rear', null)?.next).toBe(null);
    expect(pinChoice(fold, 'rear', 'MIO31')).toMatchObject({ unitLabel: 'MIO31', next: at('MIO31 NET') });
    expect(pinChoice(fold, 'no such photo', null)).toBe(null);
  });
});

describe('reading later', () => {
  it('lists pinned jacks without a look until each is answered, whatever the answer', () => {
    const fold = foldAll(plan, [
      started(),
      photo('rear', 'SW1'),
      photo('bare', 'MIO31'),
      pin('rear', 'SW1 P01'),
      pin('rear', 'SW1 P02'),
      pin('rear', 'SW1 P03'),
      statement(['SW1 P02'], 'plugged'),
      saw('SW1 P03', '1003'),
    ]);
    const before = readingList(fold);
    expect(before).toMatchObject({ left: 2, read: 0, unpinned: [{ document: 'bare' }] });
    expect(before.photos).toMatchObject([
      {
        photo: { document: 'rear' },
        open: [
          { words: 'SW1 P01', plan: '1001' },
          { words: 'SW1 P02', plan: '1002' },
        ],
      },
    ]);
    fold.add([read('rear', 'SW1 P01', '1001'), statement(['SW1 P02'], 'illegible', { photo: 'rear' })]);
    expect(readingList(fold)).toMatchObject({ left: 0, read: 2, photos: [] });
  });

  it("takes a rack's whole face for a photo of its units, the first of them to begin with", () => {
    const racked = planOf([['1001', 'MIO31 NET', 'SW1 P01']], [], {
      racks: [{ id: 'R1', label: 'R1', heightU: 42, numbering: 'bottom-up', implied: false }],
    });
    const units = racked.units.map((unit) => (unit.id === 'SW1' ? { ...unit, rack: 'R1', u: 40 } : unit));
    const fold = foldAll({ ...racked, units }, [started(), photo('face', rackFaceToPlace('R1', 'rear'))]);
    expect(readingList(fold).unpinned).toMatchObject([{ document: 'face', words: 'Rack R1 rear', whole: true }]);
    expect(pinChoice(fold, 'face', null)).toMatchObject({ unit: 'SW1', next: at('SW1 P01') });
  });

  it('tells no planned label in a blind audit', () => {
    const fold = foldAll(plan, [started({ blind: true }), photo('rear', 'SW1'), pin('rear', 'SW1 P01')]);
    expect(readingList(fold).photos[0]?.open).toEqual([
      { place: at('SW1 P01'), words: 'SW1 P01', jack: 'P01', plan: null, hasPlan: true, blind: true },
    ]);
  });

  it('says of every such statement that it was read off a photo, and when that was taken', () => {
    // 25 November 2026, 09:31 UTC, on a phone one hour east of it.
    const taken = Date.UTC(2026, 10, 25, 9, 31);
    const fold = foldAll(plan, [
      started(),
      photo('rear', 'SW1', { at: taken, zone: 60 }),
      { ...read('rear', 'SW1 P01', '1001'), at: taken + 3_600_000 },
      { ...read('rear', 'SW1 P02', '1004'), at: taken + 86_400_000 },
    ]);
    expect(verdictAt(fold, at('SW1 P01')).second).toMatch(/^Read off a photo of 10:31\./);
    const [line] = differencesView(fold, 'a').lines.filter(({ placeIds }) => placeIds.includes(at('SW1 P02')));
    expect(line?.evidence.map(evidenceToWords)).toEqual(['read off a photo of 2026-11-25 10:31']);
  });

  it('comes out the same in whatever order and however often the events arrive', () => {
    const events = [
      started(),
      photo('rear', 'SW1'),
      pin('rear', 'SW1 P01'),
      pin('rear', 'SW1 P02'),
      mark('rear', 0.1),
      mark('rear', 0.2),
      read('rear', 'SW1 P01', '1001'),
    ];
    const all = [...events, takenBack(events[5]!), takenBack(events[3]!)];
    const shown = (list: AuditEvent[]) => {
      const fold = foldAll(plan, list);
      return { list: readingList(fold), photos: photosView(fold, null), choice: pinChoice(fold, 'rear', null) };
    };
    const expected = shown(all);
    fc.assert(
      fc.property(fc.shuffledSubarray([...all, ...all], { minLength: all.length * 2 }), (list) => {
        expect(shown(list)).toEqual(expected);
      }),
      { numRuns: 40 },
    );
  });
});

describe('photoTime', () => {
  it('names the day only when it is another one, by the clock of the phone that took it', () => {
    const late = { at: Date.UTC(2026, 0, 1, 23, 30), zone: 60 };
    expect(photoTime(late, Date.UTC(2026, 0, 1, 23, 50))).toBe('00:30');
    expect(photoTime(late, Date.UTC(2026, 0, 3))).toBe('2026-01-02 00:30');
  });
});

// The order in which pinned jacks are read off photos, and what an answer states. Photos and places are invented.
import { describe, expect, it } from 'vitest';
import type { PhotoView, ReadingList } from '../../../src/core/report/photosView.ts';
import { nextStop, readStops, stopToSighting } from '../../../src/ui/photos/photosReadState.ts';
import { picturesInOrder, picturesOf } from '../../../src/ui/report/reportPictures.ts';
import { line, report } from '../../files/reportFixture.ts';

const photo = (document: string, more: Partial<PhotoView> = {}): PhotoView => ({
  event: `e-${document}`,
  document,
  place: 'SW1',
  words: 'Whole SW1',
  whole: true,
  at: 1,
  author: 'I. Halloran',
  width: 1600,
  height: 1200,
  marks: [],
  pins: [],
  ...more,
});
const pin = (jack: string) => ({
  place: `SW1/${jack}`,
  words: `SW1 ${jack}`,
  jack,
  plan: null,
  hasPlan: true,
  blind: false,
});
const list: ReadingList = {
  photos: [
    { photo: photo('d1'), open: [pin('P01'), pin('P02')] },
    { photo: photo('d2'), open: [pin('P02'), pin('P03')] },
  ],
  unpinned: [],
  read: 0,
  left: 3,
};
const shown = (passed: string[]) =>
  readStops(list, new Set(passed)).map((one) => `${one.photo.document} ${one.pin.jack}`);

describe('reading later', () => {
  it('asks each jack once, photo by photo, and leaves out what was answered', () => {
    expect(shown([])).toEqual(['d1 P01', 'd1 P02', 'd2 P03']);
    expect(shown(['SW1/P01', 'SW1/P02'])).toEqual(['d2 P03']);
  });

  it('stays on the photo in hand while it has something left', () => {
    const stops = readStops(list, new Set());
    expect(nextStop(stops, 'd2')?.pin.jack).toBe('P03');
    expect(nextStop(stops, 'gone')?.pin.jack).toBe('P01');
    expect(nextStop([], 'd1')).toBe(null);
  });

  it('states a look by eye that names its photo', () => {
    const [stop] = readStops(list, new Set());
    expect(stopToSighting(stop!, { state: 'label', label: { text: '1001', means: '1001~2' }, by: 'typed' })).toEqual({
      places: ['SW1/P01'],
      said: ['SW1 P01'],
      state: 'label',
      plugs: [{ labels: [{ text: '1001', means: '1001~2' }] }],
      basis: 'seen',
      by: 'typed',
      photo: 'd1',
    });
    expect(stopToSighting(stop!, { state: 'empty', by: 'tapped' }).plugs).toEqual([]);
    expect(stopToSighting(stop!, { state: 'unlabelled', by: 'tapped' }).plugs).toEqual([{ labels: [] }]);
  });
});

describe('the pictures of a report file', () => {
  const marked = photo('marked', { marks: [{ shape: 'arrow', from: { x: 0, y: 0 }, to: { x: 1, y: 1 } }] });
  const full = report({
    lines: [line({ photos: ['differs', 'taken back'] })],
    media: { photos: [photo('plain'), marked, photo('differs')], voices: [] },
  });

  it('are those that differences rest on, then marked ones, then the rest; none that was taken back', () => {
    expect(picturesInOrder(full)).toEqual(['differs', 'marked', 'plain']);
  });

  it('go in as far as there is room, and only from this phone', async () => {
    const services = {
      documentBytes: async (document: string) =>
        document === 'marked' ? null : { bytes: new Uint8Array(document === 'differs' ? 60 : 50), mime: 'image/jpeg' },
    };
    const pictures = await picturesOf(services, full, 100);
    expect([...pictures.keys()]).toEqual(['differs']);
    expect(pictures.get('differs')).toMatch(/^data:image\/jpeg;base64,A+/);
    expect([...(await picturesOf(services, full, 110)).keys()]).toEqual(['differs', 'plain']);
  });
});

it('keeps a label that a person says is a cable of its own, whatever it looks like', () => {
  const [stop] = readStops(list, new Set());
  const said = stopToSighting(stop!, { state: 'label', label: { text: 'A101', own: true }, by: 'typed' });
  expect(said.plugs).toEqual([{ labels: [{ text: 'A101', own: true }] }]);
});

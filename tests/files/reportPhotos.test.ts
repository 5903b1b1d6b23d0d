// Photos inside the report's page: the picture as data, marks and pins as lines over it, hostile names as text.
import { expect, it } from 'vitest';
import type { PhotoView } from '../../src/core/report/photosView.ts';
import { AT, report, reportToHtml } from './reportFixture.ts';

const photo = (change: Partial<PhotoView> = {}): PhotoView => ({
  event: 'e1',
  document: 'd1',
  place: 'SW1/P03',
  words: 'SW1 P03',
  whole: false,
  at: AT,
  author: 'I. Halloran',
  width: 1600,
  height: 1200,
  marks: [{ shape: 'circle', from: { x: 0.25, y: 0.25 }, to: { x: 0.75, y: 0.75 } }],
  pins: [{ event: 'p1', place: 'SW1/P03', words: 'SW1 P03', jack: '<b>P03', at: { x: 0.9, y: 0.5 }, open: true }],
  ...change,
});
const DATA = 'data:image/jpeg;base64,/9j/4AAQ';
const page = (photos: PhotoView[], pictures: [string, string][], voices: number[] = []) =>
  reportToHtml(
    report({
      media: {
        photos,
        voices: voices.map((lasts, i) => ({
          event: `v${i}`,
          document: `s${i}`,
          place: 'SW1/P03',
          words: 'SW1 P03',
          at: AT,
          author: 'I. Halloran',
          lasts,
        })),
      },
    }),
    { madeAt: AT, version: '1', pictures: new Map(pictures) },
  );

it('draws marks and pins over the picture that it carries', () => {
  const html = page([photo()], [['d1', DATA]]);
  expect(html).toContain(`<image href="${DATA}" width="1600" height="1200"/>`);
  expect(html).toContain('d="M400 600a400 300 0 1 0 800 0a400 300 0 1 0 -800 0"');
  // Casing beneath, line above: 6 and 2.6 px at 390 px width.
  expect(html).toMatch(/class="casing"[^>]*stroke-width="24.6"[\s\S]*class="mark"[^>]*stroke-width="10.7"/);
  expect(html).toContain('&lt;b&gt;P03</text>');
  expect(html).toContain('text-anchor="end"');
  expect(html).toContain('<figcaption><span class="name">SW1 P03</span>, 25 Nov 2026, 10:43, I. Halloran</figcaption>');
  expect(html).toContain("default-src 'none'; style-src 'unsafe-inline'; img-src data:");
});

it('names what it does not carry, and takes nothing for a picture that is none', () => {
  const hostile = 'data:image/svg+xml;base64,AAAA" onload="x';
  const html = page([photo(), photo({ document: 'd2' })], [['d1', hostile]], [2400]);
  expect(html).not.toContain('onload');
  expect(html).not.toContain('<image');
  expect(html).toContain('2 photos are kept with the record and not in this file.');
  expect(html).toContain('Voice note of 2 s at SW1 P03, I. Halloran');
});

it('says nothing of photos where there are none', () => {
  expect(page([], [])).not.toContain('Photos and voice notes');
});

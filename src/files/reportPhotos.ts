// The photos inside a report's page: pictures as data in the page itself, marks and pins drawn over them as lines.
// Nothing is loaded from anywhere, and a picture that is not at hand is named instead.

import type { Picture } from '../core/report/document/document.ts';
import { markToPath } from '../core/report/photoMarks.ts';

/** A picture with its caption, as markup and as bare words. */
interface ShownPicture {
  picture: Picture;
  caption: string;
  words: string;
}

/** Pictures by document, as `data:` addresses of image types. */
export type Pictures = ReadonlyMap<string, string>;

const PICTURE = /^data:image\/(?:jpeg|png|webp);base64,[A-Za-z0-9+/=]+$/;

/** Pictures that are at hand, and how many are not. */
export function picturesToHtml(
  pictures: readonly ShownPicture[],
  at: Pictures,
  text: (text: string) => string,
): string {
  const shown = pictures.filter(({ picture }) => PICTURE.test(at.get(picture.document) ?? ''));
  const rest = pictures.length - shown.length;
  return [
    shown.length > 0
      ? `<div class="photos">${shown.map((one) => figure(one, at.get(one.picture.document)!, text)).join('')}</div>`
      : '',
    rest > 0
      ? `<p>${rest} ${shown.length > 0 ? 'more ' : ''}${rest === 1 ? 'photo is' : 'photos are'} kept with the record and not in this file.</p>`
      : '',
  ].join('');
}

function figure({ picture, caption, words }: ShownPicture, source: string, text: (text: string) => string): string {
  const { width, height, marks, pins } = picture;
  const long = Math.max(width, height);
  // In units of the picture: lines as wide as on a screen of 390 px, names about 14 px high.
  const unit = long / 390;
  const lines = ['casing', 'mark'].map((cls) =>
    marks
      .map((mark) => `<path class="${cls}" d="${markToPath(mark, width, height)}" stroke-width="${size(cls, unit)}"/>`)
      .join(''),
  );
  const pinned = pins
    .map(({ at, jack }) => {
      const [x, y] = [Math.round(at.x * width), Math.round(at.y * height)];
      const left = at.x > 0.8;
      const rings = ['casing', 'mark'].map(
        (cls) =>
          `<circle class="${cls}" cx="${x}" cy="${y}" r="${round(9 * unit)}" stroke-width="${size(cls, unit)}"/>`,
      );
      return `${rings.join('')}<text x="${round(x + (left ? -14 : 14) * unit)}" y="${round(y + 5 * unit)}" font-size="${round(14 * unit)}" stroke-width="${round(4 * unit)}" text-anchor="${left ? 'end' : 'start'}">${text(jack)}</text>`;
    })
    .join('');
  return `<figure><svg viewBox="0 0 ${width} ${height}" role="img" aria-label="Photo: ${text(words)}"><image href="${source}" width="${width}" height="${height}"/>${lines.join('')}${pinned}</svg><figcaption>${caption}</figcaption></figure>`;
}

function size(cls: string, unit: number): number {
  return round((cls === 'casing' ? 6 : 2.6) * unit);
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}

export const photoStyle = `
.photos{display:grid;grid-template-columns:repeat(auto-fill,minmax(17rem,1fr));gap:.75rem}
figure{margin:0;break-inside:avoid}
figure svg{display:block;width:100%;height:auto;border:1px solid #7d7c73}
figcaption{font-size:.875rem;overflow-wrap:anywhere}
figure path,figure circle{fill:none;stroke-linejoin:round}
.casing{stroke:#1a1d1e}
.mark{stroke:#f3efe4}
figure text{font-family:"IBM Plex Mono",ui-monospace,monospace;font-weight:600;fill:#f3efe4;stroke:#1a1d1e;paint-order:stroke}
`;

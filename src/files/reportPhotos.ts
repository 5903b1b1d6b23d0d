// The photos inside a report's page: pictures as data in the page itself, marks and pins drawn over them as lines.
// Nothing is loaded from anywhere, and a picture that is not at hand is named instead.
import { markToPath } from '../core/report/photoMarks.ts';
import type { PhotoView, VoiceView } from '../core/report/photosView.ts';
import type { Reconciliation } from '../core/report/reconciliation.ts';

export interface Writing {
  text: (text: string) => string;
  when: (at: number) => string;
}

/** Pictures by document, as `data:` addresses of image types. */
export type Pictures = ReadonlyMap<string, string>;

const PICTURE = /^data:image\/(?:jpeg|png|webp);base64,[A-Za-z0-9+/=]+$/;

/** Photos and voice notes of the audit; empty when there is none. */
export function photosToHtml({ media }: Reconciliation, pictures: Pictures, writing: Writing): string {
  const shown = media.photos.filter(({ document }) => PICTURE.test(pictures.get(document) ?? ''));
  const rest = media.photos.length - shown.length;
  return [
    shown.length > 0
      ? `<div class="photos">${shown.map((photo) => figure(photo, pictures.get(photo.document)!, writing)).join('')}</div>`
      : '',
    rest > 0
      ? `<p>${rest} ${shown.length > 0 ? 'more ' : ''}${rest === 1 ? 'photo is' : 'photos are'} kept with the record and not in this file.</p>`
      : '',
    media.voices.length > 0
      ? `<ul>${media.voices.map((voice) => `<li>${spoken(voice, writing)}</li>`).join('')}</ul>`
      : '',
  ].join('');
}

function figure(photo: PhotoView, source: string, { text, when }: Writing): string {
  const { width, height } = photo;
  const long = Math.max(width, height);
  // In units of the picture: lines as wide as on a screen of 390 px, names about 14 px high.
  const unit = long / 390;
  const lines = ['casing', 'mark'].map((cls) =>
    photo.marks
      .map((mark) => `<path class="${cls}" d="${markToPath(mark, width, height)}" stroke-width="${size(cls, unit)}"/>`)
      .join(''),
  );
  const pins = photo.pins
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
  const words = `${photo.words}, ${when(photo.at)}, ${photo.author}`;
  return `<figure><svg viewBox="0 0 ${width} ${height}" role="img" aria-label="Photo: ${text(words)}"><image href="${source}" width="${width}" height="${height}"/>${lines.join('')}${pins}</svg><figcaption>${text(words)}</figcaption></figure>`;
}

function size(cls: string, unit: number): number {
  return round((cls === 'casing' ? 6 : 2.6) * unit);
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}

function spoken(voice: VoiceView, { text, when }: Writing): string {
  const seconds = Math.round(voice.lasts / 1000);
  return `Voice note of ${seconds} s at ${text(voice.words)}, ${text(voice.author)}, ${when(voice.at)}: kept with the record.`;
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

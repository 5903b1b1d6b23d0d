// What a JPEG may carry beside its pixels, and what is left of it. Markers: ITU-T T.81, Annex B, table B.1.
import { describe, expect, it } from 'vitest';
import { bareJpeg, hasCameraData, jpegSegments } from '../../src/files/jpeg.ts';

function segment(marker: number, body: string): number[] {
  const bytes = [...body].map((char) => char.charCodeAt(0));
  return [0xff, marker, (bytes.length + 2) >> 8, (bytes.length + 2) & 0xff, ...bytes];
}
const PIXELS = [1, 2, 0xff, 0x00, 0xff, 0xe1, 3, 0xff, 0xd9];
const jpeg = (...segments: number[][]) =>
  new Uint8Array([0xff, 0xd8, ...segments.flat(), ...segment(0xda, 'scan'), ...PIXELS]);
const JFIF = segment(0xe0, 'JFIF\0');
const TABLES = segment(0xdb, 'tables');

describe('bareJpeg', () => {
  it('drops Exif, XMP, IPTC, second pictures and comments, and keeps pixels, tables and colours', () => {
    const profile = segment(0xe2, 'ICC_PROFILE\0\u0001\u0001srgb');
    const adobe = segment(0xee, 'Adobe\0');
    const full = jpeg(
      JFIF,
      segment(0xe1, 'Exif\0\0GPS 51.5'),
      segment(0xe1, 'http://ns.adobe.com/xap/1.0/\0place'),
      profile,
      segment(0xe2, 'MPF\0second picture'),
      segment(0xed, 'Photoshop 3.0\0author'),
      segment(0xfe, 'comment'),
      adobe,
      TABLES,
    );
    expect(hasCameraData(full)).toBe(true);
    const bare = bareJpeg(full);
    expect(bare).toEqual(jpeg(JFIF, profile, adobe, TABLES));
    expect(hasCameraData(bare!)).toBe(false);
  });

  it('leaves a bare one as it is', () => {
    const plain = jpeg(JFIF, TABLES);
    expect(bareJpeg(plain)).toBe(plain);
  });

  it('passes fill bytes before a marker', () => {
    expect(bareJpeg(jpeg([0xff, ...JFIF], segment(0xe1, 'Exif'), TABLES))).toEqual(jpeg(JFIF, TABLES));
  });

  it('takes nothing else for a JPEG, and no broken one', () => {
    expect(bareJpeg(new Uint8Array([0x89, 0x50, 0x4e, 0x47]))).toBe(null);
    expect(bareJpeg(new Uint8Array(0))).toBe(null);
    expect(jpegSegments(jpeg(JFIF).subarray(0, 8))).toBe(null);
    expect(jpegSegments(new Uint8Array([0xff, 0xd8, 0, 0, 0, 0]))).toBe(null);
  });
});

// What a document may be, by what its type says and by its first bytes. Reads no more of it than these.
import { DOCUMENT_MIMES, type DocumentMime } from '../../wire/sync.ts';

/** The type without its parameters, when it is one that may be kept. */
export function headerToMime(header: string | undefined): DocumentMime | null {
  const bare = (header ?? '').split(';')[0]?.trim().toLowerCase();
  return DOCUMENT_MIMES.find((mime) => mime === bare) ?? null;
}

/** Brands under which phones and browsers write sound (from memory). */
const SOUND_BRANDS = /^(?:M4A |M4B |mp4[12]|iso[m2-9]|dash)$/;

/** Whether the first bytes are what the type says; magic numbers from the formats' own specifications. */
export function looksLike(mime: DocumentMime, first: Uint8Array): boolean {
  const starts = (bytes: number[], at = 0) => bytes.every((byte, i) => first[at + i] === byte);
  switch (mime) {
    case 'image/jpeg':
      return starts([0xff, 0xd8, 0xff]);
    case 'image/png':
      return starts([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
    case 'image/webp':
      return starts([0x52, 0x49, 0x46, 0x46]) && starts([0x57, 0x45, 0x42, 0x50], 8);
    case 'audio/webm':
      return starts([0x1a, 0x45, 0xdf, 0xa3]);
    case 'audio/mp4': {
      // ISO/IEC 14496-12: a file type box with its major brand; the same box opens HEIC and AVIF pictures.
      const brand = String.fromCharCode(...first.subarray(8, 12));
      return starts([0x66, 0x74, 0x79, 0x70], 4) && SOUND_BRANDS.test(brand);
    }
    case 'application/json': {
      const char = first.find((byte) => ![0x20, 0x09, 0x0a, 0x0d].includes(byte));
      return char === 0x7b || char === 0x5b;
    }
    case 'application/octet-stream':
      return true;
  }
}

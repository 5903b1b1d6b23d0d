// The segments of a JPEG: what a picture carries beside its pixels. Never changes a pixel.

/** Markers of ITU-T T.81, Annex B. */
const [START, SCAN, COMMENT, APP0, APP1, APP2, APP14, APP15] = [0xd8, 0xda, 0xfe, 0xe0, 0xe1, 0xe2, 0xee, 0xef];

interface Segment {
  marker: number;
  /** Offset of the 0xFF before the marker, and of the first byte after the segment. */
  from: number;
  to: number;
}

/** The segments in front of the pixels; null when the bytes are no JPEG or break off before a scan. */
export function jpegSegments(bytes: Uint8Array): Segment[] | null {
  if (bytes[0] !== 0xff || bytes[1] !== START) return null;
  const segments: Segment[] = [];
  for (let at = 2; at + 4 <= bytes.length; ) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1]!;
    // Any number of 0xFF may stand before a marker.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const to = at + 2 + bytes[at + 2]! * 256 + bytes[at + 3]!;
    segments.push({ marker, from: at, to });
    if (marker === SCAN) return segments;
    at = to;
  }
  return null;
}

/**
 * Drops every segment that can hold a place, a time, a name or a second picture: application segments but those that
 * the colours need (APP0 JFIF, APP2 with a colour profile, APP14 of the colour transform), and comments.
 * Null when the bytes are no JPEG.
 */
export function bareJpeg(bytes: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer> | null {
  const segments = jpegSegments(bytes);
  if (!segments) return null;
  const kept = segments.filter(({ marker, from }) => {
    if (marker === COMMENT) return false;
    if (marker < APP0 || marker > APP15) return true;
    return marker === APP0 || marker === APP14 || (marker === APP2 && startsWith(bytes, from + 4, 'ICC_PROFILE\0'));
  });
  if (kept.length === segments.length) return bytes;
  const pixels = bytes.subarray(segments.at(-1)!.to);
  const parts = [bytes.subarray(0, 2), ...kept.map(({ from, to }) => bytes.subarray(from, to)), pixels];
  const bare = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bare.set(part, at);
    at += part.length;
  }
  return bare;
}

/** Whether a JPEG carries what a camera writes about place, time and itself (APP1: Exif and XMP). */
export function hasCameraData(bytes: Uint8Array): boolean {
  return jpegSegments(bytes)?.some(({ marker }) => marker === APP1) === true;
}

function startsWith(bytes: Uint8Array, at: number, text: string): boolean {
  return [...text].every((char, i) => bytes[at + i] === char.charCodeAt(0));
}

// Owns reading a label from a still picture: html5-qrcode's file reader, and the decoder where it runs.
// Must never choose between several labels; a still has no detail circle, so a person chooses.
import { loadLibrary } from './cameraStream.ts';
import type { Decoder } from './decoder.ts';
import { sanitize } from './hostile.ts';
import { redraw } from './picture.ts';
import type { Point, Reading } from './scanner.ts';

export type StillResult =
  | { type: 'read'; reading: Reading }
  | { type: 'several'; readings: Reading[] }
  | { type: 'nothing' }
  | { type: 'unreadable' };

type Found = { text: string; format?: string | undefined; corners?: Point[] };

export async function readStill(file: File, decoder: Decoder | null, now: () => number): Promise<StillResult> {
  const picture = await redraw(file);
  if (picture.type === 'no-picture') return { type: 'unreadable' };
  // The decoder gets the file itself: shrinking would cost it just the small labels.
  const found = [...(decoder ? await byDecoder(file, decoder) : []), ...(await byLibrary(picture.blob))];
  const readings = new Map<string, Reading>();
  for (const { text, format, corners } of found) {
    const heard = sanitize(text);
    if (heard === null || readings.has(heard.text)) continue;
    readings.set(heard.text, {
      ...heard,
      by: 'still',
      at: now(),
      aimed: false,
      others: 0,
      ...(format === undefined ? {} : { format }),
      ...(corners === undefined ? {} : { corners }),
    });
  }
  const all = [...readings.values()].map((reading) => ({ ...reading, others: readings.size - 1 }));
  const [first] = all;
  if (first === undefined) return { type: 'nothing' };
  return all.length === 1 ? { type: 'read', reading: first } : { type: 'several', readings: all };
}

async function byDecoder(file: File, decoder: Decoder): Promise<Found[]> {
  const decoded = await decoder.decode(await createImageBitmap(file, { imageOrientation: 'from-image' }), 'thorough');
  return decoded.type === 'symbols' ? decoded.symbols : [];
}

let lastRoom = 0;

async function byLibrary(blob: Blob): Promise<Found[]> {
  const { Html5Qrcode, Html5QrcodeSupportedFormats: F } = await loadLibrary();
  // It wants an element of the page to draw in, and may not use the one of a running camera.
  const room = document.createElement('div');
  lastRoom += 1;
  room.id = `still-${lastRoom}`;
  room.hidden = true;
  document.body.append(room);
  try {
    const reader = new Html5Qrcode(room.id, {
      verbose: false,
      useBarCodeDetectorIfSupported: false,
      formatsToSupport: [F.QR_CODE, F.DATA_MATRIX, F.CODE_128, F.CODE_39],
    });
    const result = await reader.scanFileV2(new File([blob], 'still.jpg', { type: blob.type }), false);
    return [{ text: result.decodedText, format: result.result.format?.formatName }];
  } catch {
    // It throws for "nothing found" too, in words that change; to us both are nothing.
    return [];
  } finally {
    room.remove();
  }
}

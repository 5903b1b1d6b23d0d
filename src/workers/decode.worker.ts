// Owns decoding of camera frames and stills away from the page's thread.
// Must never fetch anything but its own WebAssembly file from its own origin.
/// <reference lib="webworker" />
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
// From the same package copy as the code above: the two must match exactly.
import wasmUrl from 'zxing-wasm/reader/zxing_reader.wasm?url';
import { type DecodeAnswer, type DecodeRequest, decodeRequest } from '../wire/decode.ts';
import { fits } from '../wire/fits.ts';
import { serve } from './calls/serve.ts';

declare const self: DedicatedWorkerGlobalScope;

// Without this the package would load the file from a public network address.
prepareZXingModule({ overrides: { locateFile: () => wasmUrl } });

/** More than this in one view helps nobody and costs time. */
const MAX_SYMBOLS = 8;

let canvas: OffscreenCanvas | null = null;

function pixelsOf(frame: ImageBitmap): ImageData | null {
  const { width, height } = frame;
  if (width === 0 || height === 0) return null;
  if (canvas === null || canvas.width !== width || canvas.height !== height)
    canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null) return null;
  context.drawImage(frame, 0, 0);
  return context.getImageData(0, 0, width, height);
}

async function decode(request: DecodeRequest): Promise<DecodeAnswer> {
  const { frame, formats, effort } = request;
  if (!(frame instanceof ImageBitmap)) return { type: 'decoder-failed', message: 'no picture in the message' };
  try {
    const pixels = pixelsOf(frame);
    if (pixels === null) return { type: 'decoder-failed', message: 'no canvas to read the picture' };
    const thorough = effort === 'thorough';
    const results = await readBarcodes(pixels, {
      formats,
      maxNumberOfSymbols: MAX_SYMBOLS,
      tryHarder: thorough,
      tryRotate: thorough,
      tryInvert: thorough,
      tryDownscale: thorough,
      // The identifier as it was encoded, not a rendering for people.
      textMode: 'Plain',
    });
    const symbols = results
      .filter((result) => result.isValid)
      .map(({ text, format, position: p }) => ({
        text,
        format,
        corners: [p.topLeft, p.topRight, p.bottomRight, p.bottomLeft].map(({ x, y }) => ({ x, y })),
      }));
    return { type: 'symbols', symbols };
  } catch (error) {
    return { type: 'decoder-failed', message: error instanceof Error ? error.message : String(error) };
  } finally {
    frame.close();
  }
}

serve(self, { read: fits(decodeRequest), answer: decode });

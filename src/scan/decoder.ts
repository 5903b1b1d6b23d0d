// Owns what the scan part needs of a decoder; the decode worker fits it.
// Must never name one: the app joins the two.
import type { Point } from './scanner.ts';

type Decoded =
  | { type: 'symbols'; symbols: { text: string; format: string; corners: Point[] }[] }
  | { type: 'decoder-failed'; message: string };

export type Decoder = { decode(frame: ImageBitmap, effort: 'quick' | 'thorough'): Promise<Decoded> };

// Owns what stands in the messages between the page and the decode worker.
// Must never carry what a reading means; only pixels one way and symbols the other.
import * as z from 'zod/mini';

/** Names as the decoder uses them. Each one more costs time in every frame. */
const SYMBOL_FORMATS = [
  'QRCode',
  'MicroQRCode',
  'RMQRCode',
  'DataMatrix',
  'Code128',
  'Code39',
  'Code93',
  'Aztec',
  'PDF417',
] as const;
export type SymbolFormat = (typeof SYMBOL_FORMATS)[number];
export const DEFAULT_FORMATS: readonly SymbolFormat[] = [
  'QRCode',
  'MicroQRCode',
  'RMQRCode',
  'DataMatrix',
  'Code128',
  'Code39',
];

export const decodeRequest = z.object({
  formats: z.array(z.enum(SYMBOL_FORMATS)),
  /** Quick leaves out turned, inverted and shrunken tries; thorough makes them all. */
  effort: z.enum(['quick', 'thorough']),
  /** An ImageBitmap, handed over; no type of the browser is known here. */
  frame: z.unknown(),
});
export type DecodeRequest = z.infer<typeof decodeRequest>;

const point = z.object({ x: z.number(), y: z.number() });
const symbol = z.object({ text: z.string(), format: z.string(), corners: z.array(point) });

export const decodeAnswer = z.discriminatedUnion('type', [
  z.object({ type: z.literal('symbols'), symbols: z.array(symbol) }),
  z.object({ type: z.literal('decoder-failed'), message: z.string() }),
]);
export type DecodeAnswer = z.infer<typeof decodeAnswer>;

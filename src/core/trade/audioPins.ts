// Which contacts of an eight-pin modular jack carry audio. No convention holds everywhere, so a station keeps its own table;
// this one only says what is usual. Facts, nothing is derived from them but words.
//
// Limits: Shown at jacks and compared with nothing: no look tells which contact carries what.
import * as z from 'zod/mini';
import type { Signal } from './kinds.ts';

const pin = z.number().check(z.int(), z.minimum(1), z.maximum(8));
const pairSchema = z.object({ hot: pin, cold: pin });
export type AudioPair = z.infer<typeof pairSchema>;

export const AUDIO_CHANNELS = ['left', 'right', 'aes3'] as const;
export type AudioChannel = (typeof AUDIO_CHANNELS)[number];

export const audioPinsSchema = z.object({ left: pairSchema, right: pairSchema, aes3: pairSchema });
export type AudioPins = z.infer<typeof audioPinsSchema>;

/**
 * Analogue left on 1 and 2, right on 3 and 6, AES3 on 1 and 2: common practice of broadcast makers, from memory, no
 * published table was at hand. For AES3 over this cable a trade column on the annex of AES3-2003 prefers 4 and 5, the
 * odd contact hot (tvtechnology.com, audio tips, 2006).
 */
export const USUAL_AUDIO_PINS: AudioPins = {
  left: { hot: 1, cold: 2 },
  right: { hot: 3, cold: 6 },
  aes3: { hot: 1, cold: 2 },
};

/** Why a table cannot be so; null when it can. Analogue and digital are never on one jack at once, left and right are. */
export function audioPinsFault({ left, right, aes3 }: AudioPins): string | null {
  if ([left, right, aes3].some(({ hot, cold }) => hot === cold)) return 'hot and cold are the same contact';
  const shared = [left.hot, left.cold].filter((one) => one === right.hot || one === right.cold);
  return shared.length > 0 ? `left and right share contact ${shared[0]}` : null;
}

/** `1 hot, 2 cold`. */
export function audioPairToWords({ hot, cold }: AudioPair): string {
  return `${hot} hot, ${cold} cold`;
}

/** What a jack of this signal carries where, by a table; null where it is no audio. */
export function audioPinsToWords(signal: Signal | undefined, pins: AudioPins): string | null {
  if (signal === 'aes3') return `AES3 ${audioPairToWords(pins.aes3)}`;
  if (signal !== 'line-audio') return null;
  return `left ${audioPairToWords(pins.left)}; right ${audioPairToWords(pins.right)}`;
}

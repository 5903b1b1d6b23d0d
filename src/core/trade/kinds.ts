// The kinds that everything else is told in: signals, directions, legs, what a unit is made for, how bad a thing is.
import * as z from 'zod/mini';

export const SIGNALS = [
  'microphone',
  'line-audio',
  'aes3',
  'network',
  'poe',
  'dc-powered-audio',
  'closure',
  'telephone',
  'reference',
  'mpx',
  'intercom',
  'loudspeaker',
  'serial',
  'rf',
  'dc',
  'mains',
  'fibre-single-mode',
  'fibre-multimode',
] as const;
export const signalSchema = z.enum(SIGNALS);
export type Signal = z.infer<typeof signalSchema>;

export const directionSchema = z.enum(['in', 'out', 'both', 'none']);
export type Direction = z.infer<typeof directionSchema>;

export const legSchema = z.enum(['left', 'right', 'both', 'mono']);
export type Leg = z.infer<typeof legSchema>;

/** What a unit is made for; a plain unit has none. Power is `feed` (outlet of the house), `strip` and `supply`. */
export const FORMS = [
  'adapter',
  'keyed-adapter',
  'pigtail',
  'breakout',
  'pad',
  'split',
  'patch-lead',
  'mult',
  'panel',
  'patchbay',
  'punch-block',
  'trunk',
  'feed',
  'strip',
  'cord',
  'supply',
] as const;
export const formSchema = z.enum(FORMS);
export type Form = z.infer<typeof formSchema>;

/** Worst first. `undecided` is treated as on-air until one look settles it, so it stands beside it. */
export const SEVERITIES = ['people', 'equipment', 'on-air', 'undecided', 'service', 'record'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** What harms people or equipment: told first, never grouped away, never left to a default. */
export function isHazard({ severity }: { severity: Severity }): boolean {
  return severity === 'people' || severity === 'equipment';
}

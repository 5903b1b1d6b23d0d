// Numbers of the event form that are needed without its schemas, so that the first screen does not load them.

export const EVENT_VERSION = 1;
/** Longest event text taken anywhere, in UTF-16 units; a label of 10,000 characters fits, a photo does not. */
export const MAX_EVENT_TEXT = 65_536;

/** Of a judgement or a decision: longest name and longest words that are taken; the screen's fields end there too. */
export const MAX_NAME = 80;
export const MAX_REASON = 1000;
/** A story in own words stands as a title. */
export const MAX_WORDS = 200;
/** So many facts and looks are named; a judgement on more of them is not weighed against each single one. */
export const MAX_KEYS = 1200;
export const MAX_PLACES = 200;

/** Milliseconds since 1970 of the last moment of the year 9999, the latest that every reader can write as a date. */
export const MAX_AT = 253_402_300_799_999;
/** Minutes from UTC: no zone is farther away. */
export const MAX_ZONE = 18 * 60;

/** A phone whose clock is broken still makes entries that everybody can read. */
export function boundTime(at: number): number {
  return Math.round(Math.min(MAX_AT, Math.max(0, at || 0)));
}
export function boundZone(zone: number): number {
  return Math.min(MAX_ZONE, Math.max(-MAX_ZONE, zone || 0));
}

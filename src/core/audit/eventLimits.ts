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

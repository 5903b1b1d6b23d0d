// Numbers of the event form that are needed without its schemas, so that the first screen does not load them.

export const EVENT_VERSION = 1;
/** Longest event text taken anywhere, in UTF-16 units; a label of 10,000 characters fits, a photo does not. */
export const MAX_EVENT_TEXT = 65_536;

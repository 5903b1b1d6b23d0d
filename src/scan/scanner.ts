// Owns the one Scanner port: what a reading is, which states a scanner has and how it may fail.
// Must never know a screen, a signal library or a camera; the adapters beside it do the work.

export type Point = { x: number; y: number };

export type Reading = {
  /** The exact text, cut only at the cap. Never a link to follow, never markup. */
  text: string;
  /** The same text without control, zero-width and direction marks: the form to put on a screen. */
  show: string;
  by: 'camera' | 'wedge' | 'typed' | 'still' | 'double';
  format?: string;
  at: number;
  /** Corners in pixels of the camera picture, in the order the decoder gave them. */
  corners?: Point[];
  /** True when the label lay inside the detail circle, or when a person typed or triggered the reading. */
  aimed: boolean;
  /** How many other labels were read in the same view. */
  others: number;
  /** Present when the text was longer than the cap. */
  cut?: { length: number };
};

export type ScanFailure =
  | { type: 'no-permission' }
  | { type: 'no-camera' }
  | { type: 'camera-in-use' }
  | { type: 'insecure-context' }
  | { type: 'stalled' }
  | { type: 'decoder-failed'; message: string };

export type ScannerState =
  | { type: 'off' }
  | { type: 'starting' }
  | { type: 'scanning' }
  | { type: 'paused' }
  | { type: 'failed'; failure: ScanFailure };

export type StartResult = { type: 'started' } | { type: 'stopped' } | { type: 'failed'; failure: ScanFailure };

/** A value that can be watched; `fn` is called after each change, not at once. */
export interface Watched<T> {
  get(): T;
  subscribe(fn: (value: T) => void): () => void;
}

export interface Scanner {
  readonly state: Watched<ScannerState>;
  /** Starts, or answers `started` when it already runs. `stopped` means that a stop overtook the start. */
  start(): Promise<StartResult>;
  /** Nothing is delivered once this was called, even before the promise settles. */
  stop(): Promise<void>;
  /** Keeps the source open and delivers nothing. */
  pause(): void;
  resume(): void;
  /** A person asks to read once more what is in view. */
  again(): void;
  onReading(fn: (reading: Reading) => void): () => void;
}

// Owns the reading of what browsers and html5-qrcode throw when a camera will not start: names inside strings.
// Must never let such a string reach a screen; the answer is one of our failures.
import type { ScanFailure } from './scanner.ts';

const BY_NAME: readonly (readonly [RegExp, ScanFailure])[] = [
  [/NotAllowedError|PermissionDeniedError|PermissionDismissedError/, { type: 'no-permission' }],
  [/SecurityError/, { type: 'insecure-context' }],
  [/NotFoundError|DevicesNotFoundError|OverconstrainedError|ConstraintNotSatisfiedError/, { type: 'no-camera' }],
  [/NotReadableError|TrackStartError|AbortError|SourceUnavailableError/, { type: 'camera-in-use' }],
  [/secure context/i, { type: 'insecure-context' }],
  // A browser without any camera interface at all.
  [/not supported/i, { type: 'no-camera' }],
];

export function failureFrom(thrown: unknown): ScanFailure {
  const text = thrown instanceof Error ? `${thrown.name}: ${thrown.message}` : String(thrown);
  const known = BY_NAME.find(([pattern]) => pattern.test(text));
  return known ? known[1] : { type: 'decoder-failed', message: text };
}

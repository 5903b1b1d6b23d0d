// SHA-256 as the server needs it. Texts are hashed as UTF-8, everywhere.
import { createHash } from 'node:crypto';

export function textToHash(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

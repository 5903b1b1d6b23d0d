// How the outcome of sending a document is told, by whichever way it came. Decides nothing.
import type { Context } from 'hono';
import * as wire from '../../wire/sync.ts';
import { answer, type Env, errorAnswer } from '../answers.ts';
import type { Places, Room } from '../places.ts';
import type { Serving } from '../serving.ts';
import type { Kept } from '../stores/documentStore.ts';

/** What every route that takes a document in is given. */
export type Uploading = Serving & { places: Places; memory: Room };

export const TOO_MUCH_WAITING =
  'Too many documents of the station are half sent. The phone tries again when some of them have arrived.';

/** Only for what is held: the phone takes this header as proof. */
export function proveHeld(c: Context<Env>, { sha, bytes }: { sha: string; bytes: number }): void {
  c.header(wire.DOCUMENT_HEADER, `${sha} ${bytes}`);
}

/** How the outcome of keeping a document is told. */
export function keptAnswer(c: Context<Env>, kept: Kept, mime: string) {
  switch (kept.type) {
    case 'mime-refused':
      return errorAnswer(c, 'mime-refused', `The document is not ${mime}, which it claims to be.`);
    case 'hash-differs':
    case 'parts-missing':
      return errorAnswer(c, kept.type);
    default:
      proveHeld(c, kept);
      return answer(c, wire.documentAnswerSchema, kept, kept.type === 'stored' ? 201 : 200);
  }
}

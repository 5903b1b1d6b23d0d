// The pictures that go into a report's file: those that a difference rests on first, then marked and pinned ones, as
// far as a file that people mail can bear. It reads from this phone only.
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import type { Services } from '../services.ts';

/** Bytes of pictures before they are written as text, which makes them a third longer. */
const PICTURES_AT_MOST = 12_000_000;

/** Documents in the order in which they deserve their place. */
export function picturesInOrder({ lines, media }: Pick<Reconciliation, 'lines' | 'media'>): string[] {
  const there = new Set(media.photos.map(({ document }) => document));
  const differ = lines.flatMap(({ photos }) => photos);
  const worked = media.photos.filter(({ marks, pins }) => marks.length + pins.length > 0);
  const all = [...differ, ...worked.map(({ document }) => document), ...there];
  return [...new Set(all)].filter((document) => there.has(document));
}

export async function picturesOf(
  services: Pick<Services, 'documentBytes'>,
  report: Reconciliation,
  most = PICTURES_AT_MOST,
): Promise<Map<string, string>> {
  const pictures = new Map<string, string>();
  let bytes = 0;
  for (const document of picturesInOrder(report)) {
    const found = await services.documentBytes(document);
    if (!found || bytes + found.bytes.length > most) continue;
    bytes += found.bytes.length;
    pictures.set(document, `data:${found.mime};base64,${toBase64(found.bytes)}`);
  }
  return pictures;
}

function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

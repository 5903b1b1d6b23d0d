// A temporary number read in the same breath as "No label": it goes on the plug that was just spoken about, not on the
// next one. It decides nothing about the record; the record worker says whether that plug still wants a number.

import type { AuditId, PlaceId } from '../../../core/plan/identity.ts';
import type { LabelDone } from '../../renaming/renamingFlow.ts';
import type { Services } from '../../services.ts';

/** Only what may be a temporary number is worth a question to the record worker, which knows their form. */
const MAY_BE_ONE = /^\s*u\W*\d+\s*$/i;

/** @param place The jack just spoken about, where a number is still offered. */
export async function twinOnto(services: Services, audit: AuditId, place: PlaceId, text: string): Promise<LabelDone> {
  if (!MAY_BE_ONE.test(text)) return null;
  const log = (await services.log()) ?? '';
  const onto = await services.ask('twinOnto', { audit, place, text, log });
  if (!onto) return null;
  const { other, upon } = onto;
  const put = { place, text: onto.text, upon, why: 'twin' as const, ...(other === null ? {} : { other }) };
  const result = await services.record('label-put', put, { audit });
  if (result.event !== '')
    return { type: 'put', event: result.event, place, words: `twin ${onto.text}`, where: result.type };
  return { type: 'not-kept', why: result.type === 'not-saved' ? result.why : '' };
}

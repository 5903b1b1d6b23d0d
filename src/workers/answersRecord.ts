// Answers about the record as a whole.
import type { Station } from '../core/rules/station.ts';
import type { Questions } from '../wire/page.ts';

export function recordAnswers(station: Station) {
  return {
    standing: (): Questions['standing']['answer'] => station.standing(),
    ahead: ({ now }: Questions['ahead']['ask']): Questions['ahead']['answer'] => station.ahead(now),
  };
}

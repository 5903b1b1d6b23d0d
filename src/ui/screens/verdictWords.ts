// The second line of the verdict band: what the first line has said already is not said again, so that one verdict is one
// clean sentence for eye and ear. Words only; the record's own sentences stay whole elsewhere.

import { placeToParts } from '../../core/plan/identity.ts';
import type { Verdict } from '../../core/report/verdict.ts';

/** Jack, label and word stand in the first line; here comes what they do not tell. */
export function secondLine({ second, place, jack, label, word }: Verdict): string {
  let rest = withoutHere(second, place, jack);
  if (word.startsWith('empty') || word.startsWith('blanked')) rest = rest.replace(isEmpty(jack), '');
  if (word === 'no label') rest = rest.replace(/^No label\. /, '').replace(/^No label, and plan has/, 'Plan has');
  if (word === 'cannot be read') rest = cut(rest, ` reads ${label}.`);
  if (label !== null) {
    rest = rest
      .replaceAll(`${label}: other end`, 'Other end')
      .replaceAll(`${label} is not in the plan`, 'Not in the plan');
    const here = `${label} is here, plan `;
    if (rest.startsWith(here)) rest = `Plan ${rest.slice(here.length)}`;
  }
  return rest.trim();
}

function isEmpty(jack: string): RegExp {
  return new RegExp(`^[^.]*${jack.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')} is empty\\. `);
}

/** What comes behind a part of the first sentence; all of it where that part is not there. */
function cut(text: string, part: string): string {
  const at = text.indexOf(part);
  return at < 0 ? text : text.slice(at + part.length);
}

/** The band has named the jack already, and jacks of the same unit go by their own name. */
function withoutHere(second: string, place: string, jack: string): string {
  const parts = placeToParts(place);
  if (parts.type !== 'jack' || parts.unit === '') return second;
  const bare = second.split(`${parts.unit} ${jack}: `).join('').split(` in ${parts.unit} `).join(' in ');
  return bare.charAt(0).toUpperCase() + bare.slice(1);
}

// The sentences about who else is in this audit now. Pure; whoever is elsewhere is named by unit, at this jack by jack.
import type { AuditId, PlaceId, UnitId } from '../../core/plan/identity.ts';
import { plural } from '../../core/report/words/plain.ts';
import type { Presence } from '../../wire/sync.ts';
import { count, list } from '../words.ts';
import { labelToBox, lettersOf } from './walkState.ts';

/** Where this phone's person is. */
export interface CompanyHere {
  audit: AuditId;
  unit: { id: string; label: string };
  place: PlaceId;
  jack: string;
  /** Something was recorded for this jack: whoever comes now repeats nothing. */
  done: boolean;
}

export interface CompanyWords {
  /** For the head of the walk. */
  line: string | null;
  /** For the jack: it is about to be done twice. */
  atJack: string | null;
}

const NAME_AT_MOST = 18;

export function companyToWords(
  others: readonly Presence[],
  here: CompanyHere,
  labelOf: (unit: UnitId) => string,
): CompanyWords {
  const inAudit = others.filter((one) => one.audit === here.audit);
  const atJack = here.done ? [] : inAudit.filter((one) => one.place === here.place);
  const left = inAudit.filter((one) => !atJack.includes(one));
  const near = left.filter((one) => one.unit === here.unit.id);
  const far = left.filter((one) => one.unit !== here.unit.id);
  return {
    atJack: atJack.length === 0 ? null : atThisJack(atJack, here.jack),
    line: near.length > 0 ? withRest(onThisUnit(near, here.unit.label), far.length) : elsewhere(far, labelOf),
  };
}

function atThisJack(people: Presence[], jack: string): string {
  const who = namesOf(people);
  return plural(people.length, `${who} is at ${jack} now.`, `${who} are at ${jack} now.`);
}

function onThisUnit(people: Presence[], unit: string): string {
  const [who, at] = [namesOf(people), labelToBox(unit)];
  return plural(people.length, `${who} is at ${at} too.`, `${who} are at ${at} too.`);
}

function elsewhere([first, ...rest]: Presence[], labelOf: (unit: UnitId) => string): string | null {
  if (!first) return null;
  const who = nameToShow(first.name);
  const told = first.unit === null ? `${who} is in this audit.` : `${who} is at ${labelToBox(labelOf(first.unit))}.`;
  return withRest(told, rest.length);
}

function withRest(told: string, others: number): string {
  return others === 0 ? told : `${told} ${count(others, 'other elsewhere.', 'others elsewhere.')}`;
}

/** "Anna", "Anna and Bo", "Anna and 2 others" */
function namesOf(people: Presence[]): string {
  const [first = '', ...rest] = people.map((one) => nameToShow(one.name));
  return list(rest.length > 1 ? [first, `${rest.length} others`] : [first, ...rest]);
}

/** As many whole letters as there is room for: what a person takes for one sign is never cut in two. */
function nameToShow(name: string): string {
  const letters = lettersOf(name);
  if (letters.length <= NAME_AT_MOST) return name;
  return `${letters
    .slice(0, NAME_AT_MOST - 1)
    .join('')
    .trimEnd()}…`;
}

// The sentences about who else is in this audit now. Pure; whoever is elsewhere is named by unit, at this jack by jack.
import type { AuditId, PlaceId, UnitId } from '../../core/plan/identity.ts';
import type { Presence } from '../../wire/sync.ts';
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
    atJack: atJack.length === 0 ? null : `${whoIs(atJack)} at ${here.jack} now.`,
    line: near.length === 0 ? elsewhere(far, labelOf) : `${nearBy(near, here.unit.label)}${more(far)}`,
  };
}

function nearBy(near: Presence[], unit: UnitId): string {
  return `${whoIs(near)} at ${labelToBox(unit)} too.`;
}

function elsewhere(far: Presence[], labelOf: (unit: UnitId) => string): string | null {
  const [first, ...rest] = far;
  if (!first) return null;
  const where = first.unit === null ? 'in this audit' : `at ${labelToBox(labelOf(first.unit))}`;
  return `${nameToShow(first.name)} is ${where}.${more(rest)}`;
}

function more(others: Presence[]): string {
  if (others.length === 0) return '';
  return others.length === 1 ? ' 1 other elsewhere.' : ` ${others.length} others elsewhere.`;
}

function whoIs(people: Presence[]): string {
  const [first, second, ...rest] = people.map((one) => nameToShow(one.name));
  if (second === undefined) return `${first} is`;
  if (rest.length === 0) return `${first} and ${second} are`;
  return `${first} and ${people.length - 1} others are`;
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

// Headings of what a newer plan changes. No markup and no state here.
import type { RevisionGroup, RevisionView } from '../../core/report/plan/revisionView.ts';
import { count } from '../words.ts';

const ITEMS: Record<RevisionGroup['item'], string> = {
  cable: 'Cables',
  circuit: 'Circuits',
  unit: 'Units',
  jack: 'Jacks',
  rack: 'Racks',
  setting: 'Settings',
  route: 'Routes through units',
};

const KINDS: Record<RevisionGroup['kind'], string> = {
  added: 'added',
  removed: 'removed',
  moved: 'moved',
  renamed: 'renamed',
  exchanged: 'with numbers swapped',
  changed: 'changed',
  written: 'worded differently',
};

export function groupToTitle({ item, kind }: RevisionGroup): string {
  if (item === 'cable' && kind === 'renamed') return 'Cables with another number';
  return `${ITEMS[item]} ${KINDS[kind]}`;
}

export function cablesToSentence({ cables, groups }: RevisionView): string {
  const { before, after, same } = cables;
  const counts = `${count(before, 'cable')} before, ${after} now; ${same} unchanged.`;
  const renamed = groups.some(({ item, kind }) => item === 'cable' && (kind === 'renamed' || kind === 'exchanged'));
  return renamed
    ? `${counts} A cable with another number is recognised by its ends and keeps what was seen of it.`
    : counts;
}

// What the start screen keeps while it is filled in, and the payload that it becomes. Pure: no services, no markup.
import type { RackId } from '../../core/plan/identity.ts';
import type { Occasion, Payload, Permission } from '../../core/record/events.ts';
import type { ScopeOptions } from '../../wire/page.ts';
import { list } from '../words.ts';

export interface StartDraft {
  name: string;
  occasion: Occasion;
  racks: RackId[];
  rooms: string[];
  exclusions: { what: string; label: string; reason: string }[];
  permission: Permission;
  blind: boolean;
}

export const NEW_DRAFT: StartDraft = {
  name: '',
  occasion: 'after-move',
  racks: [],
  rooms: [],
  exclusions: [],
  permission: 'look',
  blind: false,
};

export const OCCASION_WORDS: Record<Occasion, { text: string; second: string; name: string }> = {
  'after-move': {
    text: 'After a move',
    second: 'The plan is right; the racks have to match it. Done when every cable is seen at both ends.',
    name: 'After the move',
  },
  inherit: {
    text: 'Inherited',
    second: 'The racks are right; the plan is only a hint. Done when every jack has an entry.',
    name: 'As inherited',
  },
  relabel: {
    text: 'Relabel',
    second: 'The circuits stay, the names change. Done when both ends are marked with the new name.',
    name: 'Relabel',
  },
  build: {
    text: 'Build',
    second: 'Plug and record in one go. Done when every new cable has both ends recorded.',
    name: 'Build',
  },
};

/** Scope in words: racks, then rooms; the whole plan when nothing is ticked. */
export function scopeToWords(draft: Pick<StartDraft, 'racks' | 'rooms'>, options: ScopeOptions): string {
  const racks = options.racks.filter(({ id }) => draft.racks.includes(id)).map(({ label }) => label);
  const all = [...racks, ...draft.rooms];
  if (all.length === 0) return options.plan === null ? 'the whole place' : 'the whole plan';
  return list(all);
}

export function suggestName(draft: StartDraft, options: ScopeOptions): string {
  return `${OCCASION_WORDS[draft.occasion].name}: ${scopeToWords(draft, options)}`;
}

export function draftToPayload(draft: StartDraft, options: ScopeOptions, author: string): Payload<'audit-started'> {
  const known = new Set(options.racks.map(({ id }) => id));
  const rooms = new Set(options.rooms.map(({ name }) => name));
  return {
    name: draft.name.trim() || suggestName(draft, options),
    occasion: draft.occasion,
    // A draft can outlive the plan it was begun with.
    scope: { racks: draft.racks.filter((id) => known.has(id)), rooms: draft.rooms.filter((name) => rooms.has(name)) },
    exclusions: draft.exclusions,
    permission: draft.permission,
    people: [author.trim()],
    plan: options.plan?.revision ?? null,
    blind: draft.blind,
  };
}

export function toggled(list: readonly string[], item: string, on: boolean): string[] {
  const rest = list.filter((one) => one !== item);
  return on ? [...rest, item] : rest;
}

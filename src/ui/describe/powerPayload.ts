// What a feed, strip, plug-in supply or dual cord is recorded as: its outlets in a row, its plug and its leads. Pure.
import type { PlaceId } from '../../core/plan/identity.ts';
import type { Tail } from '../../core/plan/model.ts';
import type { Payload } from '../../core/record/events.ts';

export type PowerKind = 'feed' | 'strip' | 'supply' | 'cord';

/** A supply and a cord have a lead in the jack they are described at; outlets stand by themselves. */
export function hangsInJack(kind: PowerKind): boolean {
  return kind === 'supply' || kind === 'cord';
}

export function powerToPayload(said: {
  kind: PowerKind;
  label: string;
  outlets: number;
  /** The jack it is described at. */
  at: PlaceId;
  /** Where its plug is, and the second inlet of a dual cord, where they are known. */
  outlet: PlaceId | undefined;
  other: PlaceId | undefined;
  room: string | null;
}): Payload<'unit-described'> {
  const { kind } = said;
  const isRow = !hangsInJack(kind);
  const labels = isRow ? Array.from({ length: said.outlets }, (_, i) => `OUT ${i + 1}`) : [];
  return {
    label: said.label,
    heightU: 1,
    mounted: 'rear',
    form: kind,
    ...(said.room ? { room: said.room } : {}),
    jacks: labels.map((label) => ({ label, direction: 'out', signal: 'mains' })),
    faces: isRow ? [{ face: 'front', through: false, rows: [labels] }] : [],
    tails: tailsOf(said),
  };
}

function tailsOf({ kind, at, outlet, other }: Parameters<typeof powerToPayload>[0]): Tail[] {
  const plug: Tail = { end: 'A', signal: 'mains', ...(outlet ? { place: outlet } : {}) };
  switch (kind) {
    case 'feed':
      return [];
    case 'strip':
      return [plug];
    case 'supply':
    case 'cord': {
      const lead: Tail = { end: 'B', signal: kind === 'supply' ? 'dc' : 'mains', place: at };
      return [plug, lead, ...(other ? [{ end: 'C', signal: 'mains' as const, place: other }] : [])];
    }
  }
}

// Which rows of More stand first at a jack: by what the place is and what the audit is about. Pure; the rest is folded.
import type { WalkView } from '../../../core/report/walk/walkView.ts';

export type RowId =
  | ('range' | 'plugged' | 'blanked' | 'refused' | 'hazard' | 'work' | 'left-to-build')
  | ('ends' | 'jump' | 'way' | 'radio' | 'first' | 'next' | 'previous' | 'twins' | 'jacket')
  | ('part' | 'lead' | 'colour' | 'panel' | 'power' | 'new-unit' | 'unit-here' | 'loose' | 'setting')
  | ('window' | 'permission' | 'renaming' | 'scope' | 'finish');

/** So many fit on a small phone above the folded groups. */
const MOST = 7;

/** What the occasion is about; a hazard can be said at once in every one. */
const BY_OCCASION: Partial<Record<string, readonly RowId[]>> = {
  inherit: ['range', 'plugged', 'twins', 'part', 'new-unit'],
  relabel: ['renaming', 'plugged', 'ends', 'range'],
  build: ['work', 'left-to-build', 'range', 'refused'],
};
const USUAL: readonly RowId[] = ['range', 'plugged', 'refused', 'ends', 'jump'];

export function firstRows(view: Pick<WalkView, 'occasion' | 'current' | 'face' | 'unit'>): RowId[] {
  const rows: RowId[] = [...byPlace(view), ...(BY_OCCASION[view.occasion] ?? USUAL)];
  return [...new Set(rows)].slice(0, MOST - 1).concat('hazard');
}

/** Common practice, no source: bays have leads, blocks have pairs, inlets have cords, bare plugs get a number. */
function byPlace({ current, face, unit }: Pick<WalkView, 'current' | 'face' | 'unit'>): RowId[] {
  const jack = face.rows.flat().find(({ place }) => place === current.place);
  const connector = jack?.connector ?? '';
  const what = unit.description ?? '';
  return [
    ...(jack?.state === 'unlabelled' ? (['twins'] as const) : []),
    ...(/^(iec|mains)/i.test(connector) ? (['power'] as const) : []),
    ...(/^(tt|bantam)$/i.test(connector) || /patch/i.test(what) ? (['lead'] as const) : []),
    ...(/^(idc|punch|terminal|screw)/i.test(connector) || /block|terminal/i.test(what) ? (['colour'] as const) : []),
  ];
}

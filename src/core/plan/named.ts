// What a text may name, and a map to ask for it.
import type { CableId, PlaceId, RackId, UnitId } from './identity.ts';

export type Named = { label: string } & (
  | { type: 'cable'; id: CableId }
  | { type: 'jack'; id: PlaceId }
  | { type: 'unit'; id: UnitId }
  | { type: 'rack'; id: RackId }
);

/** A map to ask: a plan's own, or one looked through to another (extendIndex.ts). */
export interface Lookup<V, K extends string = string> {
  get(key: K): V | undefined;
  has(key: K): boolean;
}

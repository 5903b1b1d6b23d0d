// What a text may name, and a map to ask for it.

export type Named = { type: 'cable' | 'jack' | 'unit' | 'rack'; id: string; label: string };

/** A map to ask: a plan's own, or one looked through to another (extendIndex.ts). */
export interface Lookup<V> {
  get(key: string): V | undefined;
  has(key: string): boolean;
}

// Maps from one name to a few others, as the fold keeps by the ten thousand: lists, not sets, since nearly every one
// holds one or two. Knows nothing of what the names mean.

export function link<K extends string, V extends string>(map: Map<K, V[]>, key: NoInfer<K>, value: NoInfer<V>): void {
  const list = map.get(key);
  if (!list) map.set(key, [value]);
  else if (!list.includes(value)) list.push(value);
}

/** A name that leads nowhere any more is gone from the map. */
export function unlink<K extends string, V extends string>(map: Map<K, V[]>, key: NoInfer<K>, value: NoInfer<V>): void {
  const rest = map.get(key)?.filter((one) => one !== value) ?? [];
  if (rest.length > 0) map.set(key, rest);
  else map.delete(key);
}

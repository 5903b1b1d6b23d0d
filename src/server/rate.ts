// Buckets that fill with time. Held in memory only: after a restart everybody starts with a full one.

export type Bucket = { capacity: number; perSecond: number };
export type Allowed = { type: 'allowed' } | { type: 'wait'; seconds: number };

const MAX_KEYS = 10_000;

/** A limiter with one bucket per key. A phone that drains a long day must fit into the burst. */
export function createLimiter({ capacity, perSecond }: Bucket): (key: string, now: number) => Allowed {
  const levels = new Map<string, { level: number; at: number }>();
  return (key, now) => {
    const held = levels.get(key);
    const gone = held ? Math.max(0, now - held.at) / 1000 : 0;
    const level = Math.min(capacity, (held?.level ?? capacity) + gone * perSecond);
    // Oldest first out: an attacker with many addresses costs memory only up to here.
    levels.delete(key);
    if (levels.size >= MAX_KEYS) levels.delete(levels.keys().next().value ?? key);
    if (level < 1) {
      levels.set(key, { level, at: now });
      return { type: 'wait', seconds: Math.max(1, Math.ceil((1 - level) / perSecond)) };
    }
    levels.set(key, { level: level - 1, at: now });
    return { type: 'allowed' };
  };
}

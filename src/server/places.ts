// Places for what takes long, so that nobody takes all of them: so many in all, per station and per phone. Held in
// memory, per process. Also how much memory all bodies together may hold.

export type PlaceLimits = { inAll: number; perStation: number; perPhone: number };

export type Places = {
  /** Null when there is none left; otherwise how to give it back, which may be called more than once. */
  take: (station: string, phone: string) => (() => void) | null;
};

export function createPlaces({ inAll, perStation, perPhone }: PlaceLimits): Places {
  const taken = new Map<string, number>();
  const count = (key: string) => taken.get(key) ?? 0;
  const add = (key: string, by: number) => {
    const now = count(key) + by;
    if (now === 0) taken.delete(key);
    else taken.set(key, now);
  };
  return {
    take: (station, phone) => {
      const keys = ['all', `station ${station}`, `phone ${phone}`] as const;
      const caps = [inAll, perStation, perPhone];
      if (keys.some((key, i) => count(key) >= (caps[i] ?? 0))) return null;
      for (const key of keys) add(key, 1);
      let held = true;
      return () => {
        if (held) for (const key of keys) add(key, -1);
        held = false;
      };
    },
  };
}

export type Room = { take: () => boolean; give: (count: number) => void };

/** So many pieces for all together; who finds none left has to put its own elsewhere. */
export function createRoom(pieces: number): Room {
  let left = pieces;
  return {
    take: () => {
      if (left < 1) return false;
      left -= 1;
      return true;
    },
    give: (count) => {
      left += Math.max(0, count);
    },
  };
}

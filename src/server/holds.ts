// What requests under way may hold in memory: so many of them for each phone, and so many bytes of bodies for each phone
// and for all. Counts alone; per process.

export type HoldLimits = { requestsPerPhone: number; bytesPerPhone: number; bytesInAll: number };

/** One request's. */
export type Hold = {
  /** False when there is no room for so many bytes more; then they may not be kept. */
  grow: (bytes: number) => boolean;
  /** Gives everything back; may be called more than once. */
  end: () => void;
};

/** Answers with null when the phone has too many requests under way already. */
export function createHolds(limits: HoldLimits): (phone: string) => Hold | null {
  const phones = new Map<string, { requests: number; bytes: number }>();
  let inAll = 0;
  return (phone) => {
    const held = phones.get(phone) ?? { requests: 0, bytes: 0 };
    if (held.requests >= limits.requestsPerPhone) return null;
    phones.set(phone, held);
    held.requests += 1;
    let own = 0;
    let open = true;
    return {
      grow: (bytes) => {
        if (!open || held.bytes + bytes > limits.bytesPerPhone || inAll + bytes > limits.bytesInAll) return false;
        own += bytes;
        held.bytes += bytes;
        inAll += bytes;
        return true;
      },
      end: () => {
        if (!open) return;
        open = false;
        held.requests -= 1;
        held.bytes -= own;
        inAll -= own;
        if (held.requests === 0) phones.delete(phone);
      },
    };
  };
}

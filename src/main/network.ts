// Which network this phone is on, as far as the browser tells, and whether photos go over it. Sends nothing itself.
//
// Limits: Photos that wait for a good network are pictures alone; voice notes and plans go over any.

type NetworkKind = 'good' | 'poor' | 'unknown';
export type Network = ReturnType<typeof createNetwork>;

/** Of the Network Information API; browsers that lack it tell nothing. */
type Connection = EventTarget & { type?: string };

export function createNetwork({ changed }: { changed: () => void }) {
  const connection = (navigator as { connection?: Connection }).connection;
  let wait = false;
  /** A person said that this network is good enough. */
  let now = false;
  connection?.addEventListener('change', () => {
    now = false;
    changed();
  });
  const kind = (): NetworkKind => typeToKind(connection?.type);
  return {
    kind,
    photosWait: () => wait,
    mayCarryPhotos: () => !wait || now || kind() === 'good',
    setPhotosWait: (next: boolean) => {
      wait = next;
    },
    photosNow: (next: boolean) => {
      now = next;
    },
  };
}

function typeToKind(type: string | undefined): NetworkKind {
  if (type === 'wifi' || type === 'ethernet') return 'good';
  return type === undefined || type === 'unknown' ? 'unknown' : 'poor';
}

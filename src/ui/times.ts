// Times as people at the station write them, in the phone's own zone; the words are English, so the order is too.

export function clock(at: number): string {
  return new Date(at).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
}

export function day(at: number): string {
  return new Date(at).toLocaleDateString('en-GB', { day: 'numeric', month: 'short', year: 'numeric' });
}

export function dayAndClock(at: number): string {
  return `${day(at)}, ${clock(at)}`;
}

/** How old evidence is, in words. */
export function age(at: number, now: number): string {
  const hours = (now - at) / 3_600_000;
  if (hours < 1) return 'within the hour';
  if (hours < 24) return `${Math.floor(hours)} h ago`;
  const days = Math.floor(hours / 24);
  if (days < 60) return `${days} ${days === 1 ? 'day' : 'days'} ago`;
  return `${Math.floor(days / 30)} months ago`;
}

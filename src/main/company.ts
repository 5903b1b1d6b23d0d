// Where this phone's person is, told to the others, and where the others are. It holds nothing back and keeps nothing:
// a word that does not get through is said again or forgotten.
import type { Signal } from '@preact/signals';
import type { SyncClock } from '../sync/ports.ts';
import { MAX_NAME, PRESENCE_LIFE_MS, type Presence, type PresenceSaid } from '../wire/sync.ts';

export type PresenceAt = Omit<PresenceSaid, 'name'>;

type CompanyParts = {
  /** Says it to the server and answers with the others; null when that failed, `unknown` when the server has no ear. */
  put: (at: PresenceSaid | null) => Promise<Presence[] | 'unknown' | null>;
  clock: SyncClock;
  /** As the person typed it; may be blank. */
  name: () => string;
  /** Nobody is at a jack whose phone is in a pocket. */
  visible: () => boolean;
  /** Written here: where the others are. */
  others: Signal<Presence[]>;
};

export type Company = {
  say: (at: PresenceAt | null) => void;
  /** The others, as the stream of news tells them. */
  heard: (present: Presence[]) => void;
  /** The page has come into view again. */
  seen: () => void;
};

/** Steps through a row of jacks are told as one. */
const SETTLE_MS = 400;
const REPEAT_MS = 30_000;

export function createCompany({ put, clock, name, visible, others }: CompanyParts): Company {
  let at: PresenceAt | null = null;
  let told: string | null = null;
  let deaf = false;
  let saying = false;
  let again = false;
  let cancelSay: () => void = () => undefined;
  let cancelForget: () => void = () => undefined;

  function later(ms: number): void {
    cancelSay();
    if (!deaf) cancelSay = clock.after(ms, () => void send());
  }

  async function send(): Promise<void> {
    if (saying) {
      again = true;
      return;
    }
    // Out of view nothing is said: what was said last is forgotten by itself.
    if (at !== null && !visible()) return;
    saying = true;
    again = false;
    const said = at;
    const answer = await put(said === null ? null : { ...said, name: toName(name()) });
    saying = false;
    if (answer === 'unknown') deaf = true;
    else if (answer !== null) {
      told = JSON.stringify(said);
      heard(answer);
    }
    if (again) later(0);
    else if (at !== null) later(REPEAT_MS);
  }

  function heard(present: Presence[]): void {
    cancelForget();
    others.value = present;
    if (present.length === 0) return;
    // With the last way to the server the news of them goes stale too.
    cancelForget = clock.after(PRESENCE_LIFE_MS, () => {
      others.value = [];
    });
  }

  return {
    say: (next) => {
      if (JSON.stringify(next) === JSON.stringify(at)) return;
      at = next;
      // Whoever never was anywhere need not say that he is gone.
      if (at === null && told === null && !saying) cancelSay();
      else later(SETTLE_MS);
    },
    heard,
    seen: () => {
      if (at !== null) later(0);
    },
  };
}

/** In the form that the wire takes: no control characters, no halves of characters, never blank. */
function toName(typed: string): string {
  const plain = typed.replace(/[\p{Cc}\p{Surrogate}]/gu, ' ').trim();
  return [...plain].slice(0, MAX_NAME / 2).join('') || 'Somebody';
}

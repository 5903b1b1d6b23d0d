// A second place for entries that the database will not take: a copy beside it, one for each life of a page, so that
// closing the app loses none. The database stays the record; nothing is read from here but to be put there.
//
// Limits: Holds entries alone: photos, voice notes and drafts that the disk refuses are in memory. WebKit was tried as
// WebKitGTK, its storage process killed by hand; no iPhone was used.
import { NOT_SAVED_CACHE } from '../../wire/limits.ts';
import type { StoreResult } from '../failures.ts';
import type { UnsavedTaken } from './unsaved.ts';

export type Copies = {
  /** This page's copy is these texts from now on; none removes it. Answers whether it holds them. */
  keep: (texts: readonly string[]) => Promise<boolean>;
  /** What pages left behind, this one included. */
  read: () => Promise<{ key: string; texts: string[] }[]>;
  drop: (key: string) => Promise<void>;
};

type Caches = Pick<CacheStorage, 'open' | 'has'>;
type Local = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

type CopiesOptions = {
  station: string;
  /** Names this life of the page; another tab has another. */
  page: string;
  caches?: Caches | undefined;
  /** For what the cache does not take: it has its own share of the disk, and another keeper in some browsers. */
  local?: Local | undefined;
};

export function createCopies({ station, page, caches, local }: CopiesOptions): Copies {
  const folder = `/not-saved/${station}/`;
  const own = `${folder}${page}`;

  async function toCache(text: string): Promise<boolean> {
    if (!caches) return false;
    const cache = await caches.open(NOT_SAVED_CACHE);
    await cache.put(own, new Response(text));
    return true;
  }

  function toLocal(text: string): boolean {
    if (!local) return false;
    local.setItem(own, text);
    return true;
  }

  /** Looking must not make one. */
  const cacheThere = async () =>
    (await caches?.has(NOT_SAVED_CACHE)) ? await caches?.open(NOT_SAVED_CACHE) : undefined;

  async function drop(key: string): Promise<void> {
    await quietly(async () => void (await (await cacheThere())?.delete(key)), undefined);
    await quietly(() => local?.removeItem(key), undefined);
  }

  return {
    drop,
    async keep(texts) {
      if (texts.length === 0) {
        await drop(own);
        return false;
      }
      const text = texts.join('\n');
      return (await quietly(() => toCache(text), false)) || (await quietly(() => toLocal(text), false));
    },
    async read() {
      const found: { key: string; texts: string[] }[] = [];
      const take = (key: string, text: string) => found.push({ key, texts: text.split('\n').filter(Boolean) });
      await quietly(async () => {
        const cache = await cacheThere();
        for (const request of (await cache?.keys()) ?? []) {
          const key = new URL(request.url).pathname;
          const answer = key.startsWith(folder) ? await cache?.match(request) : undefined;
          if (answer) take(key, await answer.text());
        }
      }, undefined);
      await quietly(() => {
        const keys = Array.from({ length: local?.length ?? 0 }, (_, i) => local?.key(i) ?? '');
        for (const key of keys) if (key.startsWith(folder)) take(key, local?.getItem(key) ?? '');
      }, undefined);
      return found;
    },
  };
}

/** A second place that fails is no second place; it must not cost the first try. */
async function quietly<T>(work: () => T | Promise<T>, otherwise: T): Promise<T> {
  try {
    return await work();
  } catch {
    return otherwise;
  }
}

/** The browser's own, where it has them: reading the name alone may throw where storage is forbidden. */
export function browserCopies(station: string, page: string): Copies {
  let local: Local | undefined;
  try {
    local = globalThis.localStorage;
  } catch {
    local = undefined;
  }
  return createCopies({ station, page, caches: globalThis.caches, local });
}

export type SecondPlace = {
  /** Makes the copy what is true by now; to be called whenever the number of entries not on disk has changed. */
  follow: () => void;
  /** Takes what earlier pages left; a copy goes when its entries are on disk. */
  takeBack: () => Promise<void>;
};

type SecondPlaceParts = {
  copies: Copies;
  /** Texts of what is refused or late by now, oldest first. */
  unsaved: () => string[];
  copied: (all: boolean) => void;
  takeUnsaved: (texts: readonly string[]) => Promise<StoreResult<UnsavedTaken>>;
};

export function createSecondPlace({ copies, unsaved, copied, takeUnsaved }: SecondPlaceParts): SecondPlace {
  let turn: Promise<void> = Promise.resolve();
  let made = false;
  return {
    follow: () => {
      turn = turn.then(async () => {
        const texts = unsaved();
        if (texts.length === 0 && !made) return;
        made = texts.length > 0;
        const holds = await copies.keep(texts);
        // Another may have joined meanwhile; its own turn follows.
        copied(holds && unsaved().every((text, i) => text === texts[i]));
      });
    },
    async takeBack() {
      for (const { key, texts } of await copies.read()) {
        const took = await takeUnsaved(texts);
        const isOnDisk = took.type === 'done' && took.value.waiting + took.value.newer === 0;
        if (isOnDisk) await copies.drop(key);
      }
    },
  };
}

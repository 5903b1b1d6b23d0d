// Where databases are opened. When a browser's storage process dies, the page's own factory may stay dead until a reload;
// a fresh hidden frame of the same origin has a living one. Knows nothing of any database.

export type IdbSource = { readonly indexedDB: IDBFactory; readonly IDBKeyRange: typeof IDBKeyRange };

export type IdbFactory = {
  current: () => IdbSource | undefined;
  /** Another source in place of the one that failed; false where none can be had. One that was renewed already stays. */
  renew: (failed: IdbSource | undefined) => boolean;
};

/** @param page The document that takes the frames; nothing is renewed without one. */
export function createFactory(page: Document | undefined = globalThis.document): IdbFactory {
  let now: IdbSource | undefined;
  const frames: HTMLIFrameElement[] = [];
  return {
    // The page's own is Dexie's default.
    current: () => now,
    renew: (failed) => {
      if (failed !== now) return true;
      if (!page?.body) return false;
      const frame = page.createElement('iframe');
      frame.hidden = true;
      page.body.append(frame);
      const world = frame.contentWindow as (Window & typeof globalThis) | null;
      if (!world?.indexedDB) {
        frame.remove();
        return false;
      }
      now = { indexedDB: world.indexedDB, IDBKeyRange: world.IDBKeyRange };
      // The frame before may still serve somebody who has not noticed; the ones before that serve nobody.
      if (frames.push(frame) > 2) frames.shift()?.remove();
      return true;
    },
  };
}

/** All databases of a page die together, so they are opened anew in the same frame. */
export const pageFactory = createFactory();

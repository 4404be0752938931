// One bounded store for layers and tables, injected from outside and shared by all searches.

/** Values by owner and key. When the bound is passed everything is forgotten at once: searches under way keep what they hold, and what is still wanted is soon made again. */
export interface TableCache {
  readonly maxBytes: number;
  /** A search begins: what it alone makes is given room, within the bound. */
  begin(): void;
  /** Estimate of what is held now. */
  bytes(): number;
  /** The store of one owner (a player and a set of limits), made by `make` if it is not there. */
  owned<T extends object>(owner: string, make: () => T): T;
  /** Notes that `bytes` more are held. */
  grew(bytes: number): void;
}

/** An empty store that holds about `maxBytes` at most, and no more than `usualBytes` unless one search makes most of it: what was made for texts that are no longer there is not worth more. */
export function makeTables(maxBytes: number, usualBytes: number = maxBytes): TableCache {
  let held = 0;
  let ofSearch = 0;
  let bound = usualBytes;
  const stores = new Map<string, object>();
  return {
    maxBytes,
    bytes: () => held,
    begin: () => {
      ofSearch = 0;
    },
    owned: <T extends object>(owner: string, make: () => T): T => {
      const found = stores.get(owner);
      if (found) return found as T;
      const made = make();
      stores.set(owner, made);
      return made;
    },
    grew: (bytes) => {
      held += bytes;
      ofSearch += bytes;
      if (held > bound && ofSearch > bound / 2) bound = Math.min(maxBytes, 2 * bound);
      if (held <= bound) return;
      stores.clear();
      held = 0;
      ofSearch = 0;
      bound = usualBytes;
    },
  };
}

// One word of the notation: how it is written and what it means to a player.

export interface Entry {
  readonly word: string;
  readonly meaning: string;
}

/** The entry of a word; null if it is none of the list. */
export const entryOf = (list: readonly Entry[], word: string): Entry | null => list.find((entry) => entry.word === word) ?? null;

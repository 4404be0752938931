// Fingered parts kept with the tables they were made from, so that a part that has not changed is not fingered again.
import type { TableCache } from '../fingering/index.ts';
import type { BassPart, FingeredPart } from './types.ts';

/** The latest fingered parts. */
export interface KeptPlans {
  of(part: BassPart): FingeredPart | undefined;
  keep(made: FingeredPart): void;
}

/** Most notes in all parts together: some 1.5 kB are held for each. Of a book that is read tune by tune this is more than a screen shows. */
const mostNotes = 4_000;
/** As many are kept however long they are: the versions of a tune that are shown side by side. */
const leastParts = 4;

/** The store that goes with these tables, and is forgotten with them: a fingering holds on to its tables. */
export const keptPlans = (tables: TableCache): KeptPlans => tables.owned('plans', makeKeptPlans);

function makeKeptPlans(): KeptPlans {
  const kept = new Map<BassPart, FingeredPart>();
  let notes = 0;
  const forget = (part: BassPart): void => {
    if (kept.delete(part)) notes -= part.notes.length;
  };
  return {
    of: (part) => kept.get(part),
    keep(made) {
      forget(made.part);
      kept.set(made.part, made);
      notes += made.part.notes.length;
      for (const oldest of kept.keys()) {
        if (notes <= mostNotes || kept.size <= leastParts) break;
        forget(oldest);
      }
    },
  };
}
